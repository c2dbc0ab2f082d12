package diag

// A place says where a key, table or array element stands in the text. Places
// form a tree of the same shape as the decoded document, so that a getter walks
// down both at once: child for child, item for item.
type place struct {
	name     string // the key; "" for an array element and for the root
	key      int    // byte offset of the key; of the value for an element
	value    int    // byte offset of the value, or of the header that opens the table
	defined  bool   // has a header or value of its own, and is not only part of a longer key
	closed   bool   // has a whole value: nothing can be added to it
	asked    bool   // a getter has asked for it
	depth    int    // levels below the root
	length   int    // bytes of the keys from the root to here
	children []*place
	index    map[string]*place // the children by name, once there are many
	items    []*place          // elements of an array
	table    *Table            // the table read here, once it was got
	meant    any               // what the value was meant to be, where the text has a stand-in
}

// take is the value at the place: the one that was decoded, or what a stand-in
// for a mistake was meant to be.
func (p *place) take(value any) any {
	if p.meant != nil {
		return p.meant
	}
	return value
}

// Most tables have few keys, and a search through them is fastest; a table of
// very many must not take quadratic time. manyChildren is from when on an index finds a child faster than a search.
const manyChildren = 16

// child is the place of a key in a table, or nil.
func (p *place) child(name string) *place {
	if p.index != nil {
		return p.index[name]
	}
	for _, c := range p.children {
		if c.name == name {
			return c
		}
	}
	return nil
}

// addChild adds the place of a key, first met at offset.
func (p *place) addChild(name string, offset int) *place {
	c := &place{name: name, key: offset, value: offset, depth: p.depth + 1, length: p.length + len(name)}
	p.children = append(p.children, c)
	switch {
	case p.index != nil:
		p.index[name] = c
	case len(p.children) == manyChildren:
		p.index = make(map[string]*place, 2*manyChildren)
		for _, c := range p.children {
			p.index[c.name] = c
		}
	}
	return c
}

// addItem adds the place of the next element of an array.
func (p *place) addItem(offset int) *place {
	item := &place{key: offset, value: offset, depth: p.depth + 1, length: p.length}
	p.items = append(p.items, item)
	return item
}

// item is the place of the i-th element, or of the array if there is none.
func (p *place) item(i int) *place {
	if p == nil || i < 0 || i >= len(p.items) {
		return p
	}
	return p.items[i]
}

// isTables reports whether the place is an array of tables, [[name]].
func (p *place) isTables() bool { return len(p.items) > 0 && !p.defined }
