package canon

import (
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
)

// Decode puts the tree into the variable that into points to; see [Decode].
func (t *Tree) Decode(into any) error {
	v := reflect.ValueOf(into)
	if v.Kind() != reflect.Pointer || v.IsNil() {
		return fmt.Errorf("canon: decode into %T: need a pointer to a variable", into)
	}
	p, err := planner{}.of(v.Type().Elem())
	if err != nil {
		return err
	}
	d := decoder{t: t}
	return d.run(&t.Root, p, v.Elem())
}

type decoder struct {
	t    *Tree
	path []step
	buf  []byte
}

// run keeps a nil *Error from becoming a non-nil error.
func (d *decoder) run(n *Node, p *plan, v reflect.Value) error {
	if err := d.value(n, p, v); err != nil {
		return err
	}
	return nil
}

func (d *decoder) fail(n *Node, format string, args ...any) *Error {
	return d.t.Errorf(n, pathText(d.path), format, args...)
}

func (d *decoder) want(n *Node, what string) *Error {
	if n.Kind == Null {
		return d.fail(n, "%s should stand here, found null: leave the field out when there is no value", what)
	}
	return d.fail(n, "%s should stand here, found %s", what, n.Kind)
}

func (d *decoder) value(n *Node, p *plan, v reflect.Value) *Error {
	switch p.form {
	case asRaw:
		v.SetBytes(appendCompact(nil, n))
	case asJSON:
		d.buf = appendCompact(d.buf[:0], n)
		if err := v.Addr().Interface().(json.Unmarshaler).UnmarshalJSON(d.buf); err != nil {
			return d.fail(n, "%s", err)
		}
	case asText:
		if n.Kind != Text {
			return d.want(n, "a text")
		}
		if err := v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(n.Text)); err != nil {
			return d.fail(n, "%s", err)
		}
	case asStruct:
		return d.object(n, p, v)
	case asSlice:
		return d.list(n, p, v)
	case asMap:
		return d.mapping(n, p, v)
	case asPointer:
		if n.Kind == Null {
			v.SetZero()
			return nil
		}
		v.Set(reflect.New(p.typ.Elem()))
		return d.value(n, p.elem, v.Elem())
	case asString:
		if n.Kind != Text {
			return d.want(n, "a text")
		}
		// A copy, so that one name does not keep the whole file in memory.
		v.SetString(strings.Clone(n.Text))
	case asBool:
		if n.Kind != Bool {
			return d.want(n, "true or false")
		}
		v.SetBool(n.Text == "true")
	default:
		return d.number(n, p, v)
	}
	return nil
}

func (d *decoder) number(n *Node, p *plan, v reflect.Value) *Error {
	if n.Kind != Number {
		if n.Kind == Text {
			return d.fail(n, "a number should stand here, found a text: write it without quotes, and without a unit")
		}
		if p.form == asFloat {
			return d.want(n, "a number")
		}
		return d.want(n, "a whole number")
	}
	var err error
	bits := p.typ.Bits()
	switch p.form {
	case asInt:
		var i int64
		i, err = strconv.ParseInt(n.Text, 10, bits)
		v.SetInt(i)
	case asUint:
		var u uint64
		u, err = strconv.ParseUint(n.Text, 10, bits)
		v.SetUint(u)
	default:
		var f float64
		f, err = strconv.ParseFloat(n.Text, bits)
		v.SetFloat(f + 0) // never −0
	}
	switch {
	case errors.Is(err, strconv.ErrRange):
		return d.fail(n, "the number %.20s is too large", n.Text)
	case err != nil:
		return d.fail(n, "a whole number should stand here, found %.20s", n.Text)
	}
	return nil
}

func (d *decoder) object(n *Node, p *plan, v reflect.Value) *Error {
	if n.Kind != Object {
		return d.want(n, "an object")
	}
	var extra reflect.Value
	for i := range n.Kids {
		kid := &n.Kids[i]
		d.path = append(d.path, step{name: kid.Name, index: -1})
		at, known := p.byName[kid.Name]
		switch {
		case known:
			f := &p.fields[at]
			if err := d.value(kid, f.plan, v.Field(f.index)); err != nil {
				return err
			}
		case p.extra < 0:
			return d.t.errorAt(int(kid.nameOff), pathText(d.path), "there is no such field here: known are %s", p.names())
		default:
			if !extra.IsValid() {
				extra = reflect.MakeMap(p.typ.Field(p.extra).Type)
				v.Field(p.extra).Set(extra)
			}
			extra.SetMapIndex(reflect.ValueOf(strings.Clone(kid.Name)), reflect.ValueOf(appendCompact(nil, kid)))
		}
		d.path = d.path[:len(d.path)-1]
	}
	return nil
}

func (p *plan) names() string {
	names := make([]string, len(p.fields))
	for i, f := range p.fields {
		names[i] = f.name
	}
	return strings.Join(names, ", ")
}

func (d *decoder) list(n *Node, p *plan, v reflect.Value) *Error {
	if n.Kind != List {
		return d.want(n, "a list")
	}
	if len(n.Kids) == 0 {
		v.SetZero() // nil, so that an empty list and none compare equal
		return nil
	}
	s := reflect.MakeSlice(p.typ, len(n.Kids), len(n.Kids))
	for i := range n.Kids {
		d.path = append(d.path, step{index: i})
		if n.Kids[i].Kind == Null && p.elem.form == asPointer {
			return d.want(&n.Kids[i], "an item of the list")
		}
		if err := d.value(&n.Kids[i], p.elem, s.Index(i)); err != nil {
			return err
		}
		d.path = d.path[:len(d.path)-1]
	}
	v.Set(s)
	return nil
}

func (d *decoder) mapping(n *Node, p *plan, v reflect.Value) *Error {
	if n.Kind != Object {
		return d.want(n, "an object")
	}
	if len(n.Kids) == 0 {
		v.SetZero()
		return nil
	}
	m := reflect.MakeMapWithSize(p.typ, len(n.Kids))
	key := reflect.New(p.typ.Key()).Elem()
	for i := range n.Kids {
		kid := &n.Kids[i]
		d.path = append(d.path, step{name: kid.Name, index: -1})
		e := reflect.New(p.typ.Elem()).Elem()
		if err := d.value(kid, p.elem, e); err != nil {
			return err
		}
		key.SetString(strings.Clone(kid.Name))
		m.SetMapIndex(key, e)
		d.path = d.path[:len(d.path)-1]
	}
	v.Set(m)
	return nil
}

// finite reports whether a number can be written.
func finite(f float64) bool { return !math.IsNaN(f) && !math.IsInf(f, 0) }
