package canon

import (
	"encoding"
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Encode returns the canonical text of a value: fields as declared, keys of
// maps and unknown fields sorted, short values on one line, a new line at the
// end. The same value gives the same bytes everywhere. NaN and infinities are
// errors, with their path.
func Encode(v any) ([]byte, error) {
	rv := reflect.ValueOf(v)
	if !rv.IsValid() {
		return []byte("null\n"), nil
	}
	p, err := planner{}.of(rv.Type())
	if err != nil {
		return nil, err
	}
	w := writer{}
	if err := w.write(p, rv, 0, 0); err != nil {
		return nil, err
	}
	return append(w.b, '\n'), nil
}

// Compact is [Encode] on one line without spaces and without the line's end.
func Compact(v any) ([]byte, error) {
	n, err := build(v)
	if err != nil {
		return nil, err
	}
	return appendCompact(nil, &n), nil
}

func build(v any) (Node, error) {
	rv := reflect.ValueOf(v)
	if !rv.IsValid() {
		return Node{}, nil
	}
	p, err := planner{}.of(rv.Type())
	if err != nil {
		return Node{}, err
	}
	var e encoder
	return e.value(p, rv)
}

type encoder struct {
	path  []step
	stack []Node // finished siblings of the open lists and objects
	arena []Node // room for finished lists and objects
	texts parser // of what comes as JSON text
}

// face returns the value as an interface, by its address where it has one:
// that saves a copy on the heap.
func face(v reflect.Value) any {
	if v.CanAddr() {
		return v.Addr().Interface()
	}
	return v.Interface()
}

// push ends a kid whose step is the last of the path.
func (e *encoder) push(kid Node) {
	e.stack = append(e.stack, kid)
	e.path = e.path[:len(e.path)-1]
}

// collect ends a list or object whose first kid is at base of the stack.
func (e *encoder) collect(base int) []Node {
	n := len(e.stack) - base
	if n > cap(e.arena)-len(e.arena) {
		e.arena = make([]Node, 0, max(n, 512)) // nodes keep the full one alive
	}
	from := len(e.arena)
	e.arena = append(e.arena, e.stack[base:]...)
	e.stack = e.stack[:base]
	return e.arena[from : from+n : from+n]
}

func (e *encoder) fail(format string, args ...any) error {
	return &Error{Path: pathText(e.path), Text: fmt.Sprintf(format, args...)}
}

// value builds a value. Nodes are passed by value: so they stay off the heap
// until their list or object is whole.
func (e *encoder) value(p *plan, v reflect.Value) (n Node, err error) {
	switch p.form {
	case asRaw:
		return e.raw(v.Bytes(), false)
	case asJSON:
		b, err := face(v).(json.Marshaler).MarshalJSON()
		if err != nil {
			return n, e.fail("%s", err)
		}
		return e.raw(b, true)
	case asText:
		b, err := face(v).(encoding.TextMarshaler).MarshalText()
		if err != nil {
			return n, e.fail("%s", err)
		}
		n.Kind, n.Text = Text, valid(string(b))
	case asStruct:
		n.Kind = Object
		n.Kids, err = e.object(p, v)
	case asSlice:
		n.Kind = List
		n.Kids, err = e.list(p, v)
	case asMap:
		n.Kind = Object
		n.Kids, err = e.mapping(p, v)
	case asPointer:
		if !v.IsNil() {
			return e.value(p.elem, v.Elem())
		}
		n.Kind = Null
	case asString:
		n.Kind, n.Text = Text, valid(v.String())
	case asBool:
		n.Kind, n.Text = Bool, strconv.FormatBool(v.Bool())
	case asInt:
		n.Kind, n.Text = Number, strconv.FormatInt(v.Int(), 10)
	case asUint:
		n.Kind, n.Text = Number, strconv.FormatUint(v.Uint(), 10)
	case asFloat:
		if !finite(v.Float()) {
			return n, e.fail("%v is not a number a file can hold", v.Float())
		}
		n.Kind, n.Text = Number, formatFloat(v.Float(), p.typ.Bits())
	}
	return n, err
}

func (e *encoder) list(p *plan, v reflect.Value) ([]Node, error) {
	base := len(e.stack)
	for i := range v.Len() {
		e.path = append(e.path, step{index: i})
		kid, err := e.value(p.elem, v.Index(i))
		if err != nil {
			return nil, err
		}
		e.push(kid)
	}
	return e.collect(base), nil
}

func (e *encoder) object(p *plan, v reflect.Value) ([]Node, error) {
	base := len(e.stack)
	for i := range p.fields {
		f := &p.fields[i]
		fv := v.Field(f.index)
		if f.omits(fv) {
			continue
		}
		e.path = append(e.path, step{name: f.name, index: -1})
		kid, err := e.value(f.plan, fv)
		if err != nil {
			return nil, err
		}
		kid.Name = f.name
		e.push(kid)
	}
	if err := e.extra(p, v); err != nil {
		return nil, err
	}
	return e.collect(base), nil
}

// extra pushes the kept unknown fields, sorted.
func (e *encoder) extra(p *plan, v reflect.Value) error {
	if p.extra < 0 || v.Field(p.extra).Len() == 0 {
		return nil
	}
	extra := v.Field(p.extra).Convert(extraType).Interface().(map[string][]byte)
	for _, name := range slices.Sorted(maps.Keys(extra)) {
		e.path = append(e.path, step{name: name, index: -1})
		if _, known := p.byName[name]; known {
			return e.fail("a kept unknown field bears the name of a known one")
		}
		kid, err := e.raw(extra[name], false)
		if err != nil {
			return err
		}
		kid.Name = valid(name)
		e.push(kid)
	}
	return nil
}

func (e *encoder) mapping(p *plan, v reflect.Value) ([]Node, error) {
	base := len(e.stack)
	for it := v.MapRange(); it.Next(); {
		name := valid(it.Key().String())
		e.path = append(e.path, step{name: name, index: -1})
		kid, err := e.value(p.elem, it.Value())
		if err != nil {
			return nil, err
		}
		kid.Name = name
		e.push(kid)
	}
	kids := e.collect(base)
	slices.SortFunc(kids, func(a, b Node) int { return strings.Compare(a.Name, b.Name) })
	for i := 1; i < len(kids); i++ {
		if kids[i].Name == kids[i-1].Name {
			return nil, e.fail("two keys read %q once what is not UTF-8 is left out", kids[i].Name)
		}
	}
	return kids, nil
}

// raw takes over JSON text. Numbers of a marshaller get the canonical form;
// those of unknown fields stay as they are, because their meaning is unknown.
func (e *encoder) raw(b []byte, own bool) (Node, error) {
	t, err := e.texts.parse(string(b))
	if err != nil {
		return Node{}, e.fail("is not JSON text: %s", err)
	}
	if own {
		err = e.numbers(&t.Root)
	}
	return t.Root, err
}

func (e *encoder) numbers(n *Node) error {
	if n.Kind == Number && (strings.ContainsAny(n.Text, ".eE") || n.Text == "-0") {
		f, err := strconv.ParseFloat(n.Text, 64)
		if err != nil {
			return e.fail("the number %.20s is too large", n.Text)
		}
		n.Text = formatFloat(f, 64)
	}
	for i := range n.Kids {
		if err := e.numbers(&n.Kids[i]); err != nil {
			return err
		}
	}
	return nil
}

// formatFloat writes the shortest digits that read back as f, with an exponent
// only where ECMAScript (ECMA-262, Number::toString) writes one.
func formatFloat(f float64, bits int) string {
	if f == 0 {
		return "0"
	}
	if abs := max(f, -f); abs >= 1e-6 && abs < 1e21 {
		return strconv.FormatFloat(f, 'f', -1, bits)
	}
	s := strconv.FormatFloat(f, 'e', -1, bits)
	if i := len(s) - 4; i > 0 && s[i] == 'e' && s[i+2] == '0' { // e-07 → e-7
		s = s[:i+2] + s[i+3:]
	}
	return s
}

// valid replaces what is not UTF-8, so that a slip elsewhere never makes a
// drawing that cannot be saved.
func valid(s string) string {
	if utf8.ValidString(s) {
		return s
	}
	return strings.ToValidUTF8(s, "\ufffd")
}

// omits reports whether the field is left out when it has this value.
func (f *field) omits(v reflect.Value) bool {
	if f.omitEmpty && isEmpty(v) {
		return true
	}
	if f.omitZero && f.isZero && !(v.Kind() == reflect.Pointer && v.IsNil()) {
		return face(v).(interface{ IsZero() bool }).IsZero()
	}
	return f.omitZero && v.IsZero()
}

func isEmpty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map, reflect.String, reflect.Array:
		return v.Len() == 0
	case reflect.Struct:
		return false
	}
	return v.IsZero()
}
