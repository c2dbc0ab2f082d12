package page

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// A node is an element of a page. The pages are written so that they are XML as
// well: every element closed, every attribute quoted, no named entity. That
// makes a strict parser of the standard library their judge.
type node struct {
	name  string // "#text" of a piece of text
	attr  map[string]string
	kids  []*node
	text  string // of a piece of text
	above *node
}

// parse reads a page as strict XML.
func parse(page string) (*node, error) {
	d := xml.NewDecoder(strings.NewReader(page))
	root := &node{name: "#root"}
	at := root
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			if at != root {
				return nil, fmt.Errorf("<%s> is not closed", at.name)
			}
			return root, nil
		}
		if err != nil {
			return nil, err
		}
		switch x := token.(type) {
		case xml.StartElement:
			n := &node{name: x.Name.Local, attr: map[string]string{}, above: at}
			for _, a := range x.Attr {
				if _, twice := n.attr[a.Name.Local]; twice {
					return nil, fmt.Errorf("<%s> has %s twice", n.name, a.Name.Local)
				}
				n.attr[a.Name.Local] = a.Value
			}
			at.kids = append(at.kids, n)
			at = n
		case xml.EndElement:
			at = at.above
		case xml.CharData:
			at.kids = append(at.kids, &node{name: "#text", text: string(x), above: at})
		}
	}
}

// all are the elements below n, n first, in the order of the page, that test
// approves.
func (n *node) all(test func(*node) bool) []*node {
	var out []*node
	if test(n) {
		out = append(out, n)
	}
	for _, k := range n.kids {
		out = append(out, k.all(test)...)
	}
	return out
}

// named are the elements of the given names.
func (n *node) named(names ...string) []*node {
	return n.all(func(x *node) bool { return slices.Contains(names, x.name) })
}

// within is the nearest element above of the given name, nil where there is
// none.
func (n *node) within(name string) *node {
	for x := n.above; x != nil; x = x.above {
		if x.name == name {
			return x
		}
	}
	return nil
}

// has reports whether an element is of a class.
func (n *node) has(class string) bool {
	return slices.Contains(strings.Fields(n.attr["class"]), class)
}

// blocks are the elements whose text stands apart from that around it.
var blocks = strings.Fields("div p li dt dd tr th td caption figcaption svg summary")

// flat is the text of an element and of all below it.
func (n *node) flat() string {
	var b strings.Builder
	n.flatten(&b)
	return b.String()
}

func (n *node) flatten(b *strings.Builder) {
	b.WriteString(n.text)
	apart := slices.Contains(blocks, n.name)
	if apart {
		b.WriteByte(' ')
	}
	for _, k := range n.kids {
		k.flatten(b)
	}
	if apart {
		b.WriteByte(' ')
	}
}

// words is the text of an element with single blanks.
func (n *node) words() string { return strings.Join(strings.Fields(n.flat()), " ") }
