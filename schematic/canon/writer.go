package canon

import (
	"reflect"
	"slices"
)

// writer writes the outer lists and objects, which are always broken, as it
// goes, and builds nodes only for the values in them: a large file then needs
// room for one part or wire at a time.
type writer struct {
	encoder
	b []byte
}

// write appends a value, of whose line used bytes are taken.
func (w *writer) write(p *plan, v reflect.Value, depth, used int) error {
	switch {
	case p.form == asPointer && !v.IsNil():
		return w.write(p.elem, v.Elem(), depth, used)
	case p.form == asStruct && depth <= alwaysBroken:
		return w.object(p, v, depth)
	case p.form == asSlice && depth <= alwaysBroken:
		return w.list(p, v, depth)
	}
	n, err := w.value(p, v)
	if err != nil {
		return err
	}
	w.node(&n, depth, used)
	return nil
}

// node appends a built value and gives its room to the next.
func (w *writer) node(n *Node, depth, used int) {
	if need := measure(n) * 2; cap(w.b)-len(w.b) < need {
		w.b = slices.Grow(w.b, max(need, len(w.b), 4096)) // doubling copies less than append does
	}
	w.b = layout(w.b, n, depth, used)
	w.arena = w.arena[:0]
}

func (w *writer) list(p *plan, v reflect.Value, depth int) error {
	w.b = append(w.b, '[')
	if err := w.items(p, v, depth); err != nil {
		return err
	}
	w.end(v.Len(), depth, ']')
	return nil
}

func (w *writer) object(p *plan, v reflect.Value, depth int) error {
	w.b = append(w.b, '{')
	n := 0
	for i := range p.fields {
		f := &p.fields[i]
		fv := v.Field(f.index)
		if f.omits(fv) {
			continue
		}
		used := w.name(n, f.name, depth)
		n++
		w.path = append(w.path, step{name: f.name, index: -1})
		if err := w.write(f.plan, fv, depth+1, used); err != nil {
			return err
		}
		w.path = w.path[:len(w.path)-1]
	}
	base := len(w.stack)
	if err := w.extra(p, v); err != nil {
		return err
	}
	for i := range w.stack[base:] {
		kid := &w.stack[base+i]
		w.node(kid, depth+1, w.name(n, kid.Name, depth))
		n++
	}
	w.stack = w.stack[:base]
	w.end(n, depth, '}')
	return nil
}

// name begins the nth member and returns the bytes used of its line.
func (w *writer) name(n int, name string, depth int) int {
	w.next(n, depth)
	start := len(w.b)
	w.b = append(appendText(w.b, name), ": "...)
	return 2*(depth+1) + len(w.b) - start
}

// next begins the nth item or member.
func (w *writer) next(n, depth int) {
	if n > 0 {
		w.b = append(w.b, ',')
	}
	w.b = newline(w.b, depth+1)
}

func (w *writer) end(n, depth int, bracket byte) {
	if n > 0 {
		w.b = newline(w.b, depth)
	}
	w.b = append(w.b, bracket)
}
