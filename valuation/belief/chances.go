package belief

const (
	// chanceBlock is how many cases chances are worked out for at a time.
	chanceBlock = 256
	// maxPlaces is how many places a table of chances has at most.
	maxPlaces = 1 << 12
)

// chances work out those of one symptom in many cases. As many of the points
// that can cause it as make a small table are looked up: the states of a case
// lead to a place, which has what they all come to. The others are added case by
// case. It makes no difference to the last bit.
type chances struct {
	l       *link
	tabled  []tabled
	columns [][]uint8   // of the other points
	p       [][]float64 // strengths of their states
	there   []float64   // by place: chance that the symptom is there
	absent  []float64   // and that it is not
	known   []float64   // by place, where no point is left: what is believed
}

// A tabled point is one with the steps that its states make in a table. Most
// bring nothing about, like one that is not there, and make none.
type tabled struct {
	column []uint8
	step   [NotApplicable + 1]uint16
}

func (p *Posterior) newChances(j int, c *Cases) *chances {
	l := &p.f.links[j]
	x := &chances{l: l, there: []float64{l.leak}, absent: []float64{1 - l.leak}}
	limit := min(maxPlaces, len(c.Weight)/4)
	for _, i := range l.points {
		strengths := l.p[p.f.off[i]:p.f.off[i+1]]
		if len(x.columns) > 0 || len(x.there)*growth(strengths) > limit {
			x.columns, x.p = append(x.columns, c.State[i]), append(x.p, strengths)
		} else {
			x.table(c.State[i], strengths)
		}
	}
	if len(x.tabled)%2 > 0 { // they are looked up in pairs
		x.tabled = append(x.tabled, tabled{column: x.tabled[0].column})
	}
	if len(x.columns) == 0 {
		x.known = make([]float64, len(x.there))
		for k := range x.known {
			x.known[k] = l.believed(x.there[k], x.absent[k])
		}
	}
	return x
}

// growth is how many times longer a point makes a table.
func growth(strengths []float64) int {
	n := 1
	for _, strength := range strengths {
		if strength > 0 {
			n++
		}
	}
	return n
}

// table makes a table longer by a point: for each strength that its states have
// once more what it was before, with that strength added.
func (x *chances) table(column []uint8, strengths []float64) {
	t := tabled{column: column}
	before := len(x.there)
	for s, strength := range strengths {
		if strength == 0 {
			continue
		}
		t.step[s] = uint16(len(x.there))
		for k := range before {
			there, absent := bring(x.there[k], x.absent[k], strength)
			x.there, x.absent = append(x.there, there), append(x.absent, absent)
		}
	}
	x.tabled = append(x.tabled, t)
}

// bring lets a state bring a symptom about with a strength.
func bring(there, absent, strength float64) (float64, float64) {
	return there + float64((1-there)*strength), absent * (1 - strength)
}

// fill fills out for the cases after the first so many.
func (x *chances) fill(out []float64, from int) {
	var buffer [chanceBlock]uint16
	place := buffer[:len(out)]
	for i := 0; i < len(x.tabled); i += 2 {
		x.tabled[i].walk(&x.tabled[i+1], place, from)
	}
	if known := x.known; known != nil {
		for n, at := range place {
			out[n] = known[at]
		}
		return
	}
	x.add(out, place, from)
}

// walk takes the steps of two points in one pass, since a pass costs as much as a
// point.
func (x *tabled) walk(y *tabled, place []uint16, from int) {
	a, b := x.column[from:][:len(place)], y.column[from:][:len(place)]
	for n := range place {
		place[n] += x.step[a[n]] + y.step[b[n]]
	}
}

// add adds the points that are not in the table to what is, and fills out with
// what is believed then.
func (x *chances) add(out []float64, place []uint16, from int) {
	for n, at := range place {
		there, absent := x.there[at], x.absent[at]
		for i, column := range x.columns {
			if s := int(column[from+n]); s < len(x.p[i]) {
				there, absent = bring(there, absent, x.p[i][s])
			}
		}
		out[n] = x.l.believed(there, absent)
	}
}

// believed is Bayes' rule for the symptom alone: the chance that the symptom is
// there given the reports, where it is there and absent with the given weights.
func (l *link) believed(there, absent float64) float64 {
	there = float64(there * l.there)
	if there == 0 {
		return 0
	}
	return there / (there + float64(absent*l.not))
}
