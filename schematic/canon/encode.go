package canon

import (
	"encoding"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// Encode returns the canonical text of a value: fields as declared, keys of
// maps and unknown fields sorted, short values on one line, a new line at the
// end. The same value gives the same bytes everywhere. NaN and infinities are
// errors, with their path.
func Encode(v any) ([]byte, error) {
	n, err := build(v)
	if err != nil {
		return nil, err
	}
	return appendPretty(nil, &n), nil
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
	var n Node
	return n, e.value(&n, p, rv)
}

type encoder struct{ path []step }

func (e *encoder) fail(format string, args ...any) error {
	return &Error{Path: pathText(e.path), Text: fmt.Sprintf(format, args...)}
}

func (e *encoder) value(n *Node, p *plan, v reflect.Value) error {
	switch p.form {
	case asJSON:
		b, err := v.Interface().(json.Marshaler).MarshalJSON()
		if err != nil {
			return e.fail("%s", err)
		}
		return e.raw(n, b, true)
	case asText:
		b, err := v.Interface().(encoding.TextMarshaler).MarshalText()
		if err != nil {
			return e.fail("%s", err)
		}
		n.Kind, n.Text = Text, valid(string(b))
	case asStruct:
		return e.object(n, p, v)
	case asSlice:
		n.Kind = List
		if v.Len() > 0 {
			n.Kids = make([]Node, v.Len())
		}
		for i := range n.Kids {
			e.path = append(e.path, step{index: i})
			if err := e.value(&n.Kids[i], p.elem, v.Index(i)); err != nil {
				return err
			}
			e.path = e.path[:len(e.path)-1]
		}
	case asMap:
		return e.mapping(n, p, v)
	case asPointer:
		if v.IsNil() {
			n.Kind = Null
			return nil
		}
		return e.value(n, p.elem, v.Elem())
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
			return e.fail("%v is not a number a file can hold", v.Float())
		}
		n.Kind, n.Text = Number, formatFloat(v.Float(), p.typ.Bits())
	}
	return nil
}

func (e *encoder) object(n *Node, p *plan, v reflect.Value) error {
	n.Kind = Object
	n.Kids = make([]Node, 0, len(p.fields))
	for i := range p.fields {
		f := &p.fields[i]
		fv := v.Field(f.index)
		if f.omitEmpty && isEmpty(fv) || f.omitZero && isZero(fv, f.isZero) {
			continue
		}
		n.Kids = append(n.Kids, Node{Name: f.name})
		e.path = append(e.path, step{name: f.name, index: -1})
		if err := e.value(&n.Kids[len(n.Kids)-1], f.plan, fv); err != nil {
			return err
		}
		e.path = e.path[:len(e.path)-1]
	}
	if p.extra < 0 || v.Field(p.extra).Len() == 0 {
		return nil
	}
	extra := v.Field(p.extra).Convert(extraType).Interface().(map[string][]byte)
	names := make([]string, 0, len(extra))
	for name := range extra {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		e.path = append(e.path, step{name: name, index: -1})
		if _, known := p.byName[name]; known {
			return e.fail("a kept unknown field bears the name of a known one")
		}
		kid := Node{Name: valid(name)}
		if err := e.raw(&kid, extra[name], false); err != nil {
			return err
		}
		n.Kids = append(n.Kids, kid)
		e.path = e.path[:len(e.path)-1]
	}
	return nil
}

func (e *encoder) mapping(n *Node, p *plan, v reflect.Value) error {
	n.Kind = Object
	for it := v.MapRange(); it.Next(); {
		kid := Node{Name: valid(it.Key().String())}
		e.path = append(e.path, step{name: kid.Name, index: -1})
		if err := e.value(&kid, p.elem, it.Value()); err != nil {
			return err
		}
		e.path = e.path[:len(e.path)-1]
		n.Kids = append(n.Kids, kid)
	}
	slices.SortFunc(n.Kids, func(a, b Node) int { return strings.Compare(a.Name, b.Name) })
	for i := 1; i < len(n.Kids); i++ {
		if n.Kids[i].Name == n.Kids[i-1].Name {
			return e.fail("two keys read %q once what is not UTF-8 is left out", n.Kids[i].Name)
		}
	}
	return nil
}

// raw takes over JSON text. Numbers of a marshaller get the canonical form;
// those of unknown fields stay as they are, because their meaning is unknown.
func (e *encoder) raw(n *Node, b []byte, own bool) error {
	t, err := Parse(b)
	if err != nil {
		return e.fail("is not JSON text: %s", err)
	}
	name := n.Name
	*n = t.Root
	n.Name = name
	if own {
		return e.numbers(n)
	}
	return nil
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
func valid(s string) string { return strings.ToValidUTF8(s, "\ufffd") }

func isEmpty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map, reflect.String, reflect.Array:
		return v.Len() == 0
	case reflect.Struct:
		return false
	}
	return v.IsZero()
}

func isZero(v reflect.Value, own bool) bool {
	if own && !(v.Kind() == reflect.Pointer && v.IsNil()) {
		return v.Interface().(interface{ IsZero() bool }).IsZero()
	}
	return v.IsZero()
}
