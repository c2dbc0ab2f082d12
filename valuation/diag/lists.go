package diag

import "time"

// Texts is an optional array of strings. An element that is none is reported
// and is "", so that element i stays at i.
func (t *Table) Texts(key string) []string {
	return elements(t, key, "a list of quoted strings", aText, asText)
}

// Integers is an optional array of whole numbers. An element that is none, or
// does not fit an int, is reported and is 0.
func (t *Table) Integers(key string) []int {
	return elements(t, key, "a list of whole numbers", "a whole number", func(v any) (int, bool) {
		n, ok := v.(int64)
		return int(n), ok && int64(int(n)) == n
	})
}

// Dates is an optional array of days, each midnight UTC. An element that is
// none is reported and is the zero time.
func (t *Table) Dates(key string) []time.Time {
	return elements(t, key, "a list of dates such as [2026-03-14]", aDate, asDate)
}

// Child is the table or inline table at key, or nil where there is none.
func (t *Table) Child(key string) *Table {
	data, ok := scalar(t, key, "a table such as { … }", asTable)
	if !ok {
		return nil
	}
	return t.open(join(t.path, key), t.place.child(key), data)
}

// Children are the tables of an array of tables, [[key]], or of an array of
// inline tables. An element that is no table is reported and left out.
func (t *Table) Children(key string) []*Table {
	var tables []*Table
	for _, item := range t.items(key, "tables such as [ { … } ]", "a table such as { … }", false) {
		tables = append(tables, item.Table)
	}
	return tables
}

// An Item is an element of an array that holds strings or inline tables. Table
// is nil for a string.
type Item struct {
	Text  string
	Table *Table
	Pos   Pos
}

// Items is an optional array of strings, inline tables or both. An element that
// is neither is reported and left out.
func (t *Table) Items(key string) []Item {
	return t.items(key, "quoted strings or inline tables", "a quoted string or an inline table", true)
}

// IsTable reports whether the value at key is a table.
func (t *Table) IsTable(key string) bool {
	value, _, _ := t.find(key)
	_, ok := value.(map[string]any)
	return ok
}

// IsNumber reports whether the value at key is a number.
func (t *Table) IsNumber(key string) bool {
	value, _, _ := t.find(key)
	switch value.(type) {
	case int64, float64:
		return true
	}
	return false
}

// items are the tables of an array, and its strings where text may be. The words
// many and one say what is expected, of the array and of each element.
func (t *Table) items(key, many, one string, text bool) []Item {
	values, ok := scalar(t, key, "a list of "+many, asList)
	if !ok {
		return nil
	}
	var items []Item
	array := t.place.child(key)
	for i, v := range values {
		p, path := array.item(i), itemPath(join(t.path, key), i)
		v = p.take(v)
		item := Item{Pos: t.doc.pos(p.value)}
		if s, ok := v.(string); ok && text {
			item.Text = s
		} else if data, ok := element(t, v, p, path, one, asTable); ok {
			item.Table = t.open(path, p, data)
		} else {
			continue
		}
		items = append(items, item)
	}
	return items
}

// elements are the elements of an array as Ts, the zero T for what is none.
func elements[T any](t *Table, key, many, one string, as accept[T]) []T {
	values, ok := scalar(t, key, many, asList)
	if !ok {
		return nil
	}
	list := make([]T, len(values))
	array := t.place.child(key)
	for i, v := range values {
		p := array.item(i)
		list[i], _ = element(t, p.take(v), p, itemPath(join(t.path, key), i), one, as)
	}
	return list
}
