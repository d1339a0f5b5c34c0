package canon

import (
	"encoding"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
)

// form is how values of a Go type are read and written.
type form uint8

const (
	asRaw  form = iota + 1 // Raw
	asJSON                 // json.Marshaler and Unmarshaler
	asText                 // encoding.TextMarshaler and TextUnmarshaler
	asStruct
	asSlice
	asMap
	asPointer
	asString
	asBool
	asInt
	asUint
	asFloat
)

// Raw is JSON text that is read and written as it stands, without spaces.
type Raw []byte

// plan is what coding needs to know of a Go type.
type plan struct {
	form   form
	typ    reflect.Type
	elem   *plan // of a slice, map or pointer
	fields []field
	byName map[string]int
	extra  int // index of the field Extra, -1 for none
}

type field struct {
	name      string
	index     int
	plan      *plan
	omitEmpty bool
	omitZero  bool
	isZero    bool // the type has its own IsZero
}

// planner builds plans and keeps them for one call, so that nothing global
// changes.
type planner map[reflect.Type]*plan

var (
	marshalsJSON   = reflect.TypeFor[json.Marshaler]()
	unmarshalsJSON = reflect.TypeFor[json.Unmarshaler]()
	marshalsText   = reflect.TypeFor[encoding.TextMarshaler]()
	unmarshalsText = reflect.TypeFor[encoding.TextUnmarshaler]()
	hasIsZero      = reflect.TypeFor[interface{ IsZero() bool }]()
	extraType      = reflect.TypeFor[map[string][]byte]()
	rawType        = reflect.TypeFor[Raw]()
)

func (pl planner) of(t reflect.Type) (*plan, error) {
	if p, ok := pl[t]; ok {
		return p, nil
	}
	p := &plan{typ: t, extra: -1}
	pl[t] = p // before the fields: types may hold themselves
	var err error
	switch ptr := reflect.PointerTo(t); {
	case t == rawType:
		p.form = asRaw
	case t.Kind() == reflect.Pointer:
		p.form = asPointer
		p.elem, err = pl.of(t.Elem())
	case t.Implements(marshalsJSON) && ptr.Implements(unmarshalsJSON):
		p.form = asJSON
	case t.Implements(marshalsText) && ptr.Implements(unmarshalsText):
		p.form = asText
	default:
		err = pl.plain(p)
	}
	if err != nil {
		return nil, err
	}
	return p, nil
}

func (pl planner) plain(p *plan) (err error) {
	switch t := p.typ; t.Kind() {
	case reflect.Struct:
		p.form = asStruct
		return pl.fields(p)
	case reflect.Slice:
		p.form = asSlice
		p.elem, err = pl.of(t.Elem())
		return err
	case reflect.Map:
		if t.Key().Kind() != reflect.String {
			return fmt.Errorf("canon: %s: keys must be strings", t)
		}
		p.form = asMap
		p.elem, err = pl.of(t.Elem())
		return err
	case reflect.String:
		p.form = asString
	case reflect.Bool:
		p.form = asBool
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		p.form = asInt
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		p.form = asUint
	case reflect.Float32, reflect.Float64:
		p.form = asFloat
	default:
		return fmt.Errorf("canon: the Go type %s has no form in a file", t)
	}
	return nil
}

func (pl planner) fields(p *plan) error {
	p.byName = map[string]int{}
	for i := range p.typ.NumField() {
		f := p.typ.Field(i)
		if f.Name == "Extra" && f.Type.ConvertibleTo(extraType) {
			p.extra = i
			continue
		}
		name, opts, _ := strings.Cut(f.Tag.Get("json"), ",")
		if !f.IsExported() || name == "-" && opts == "" {
			continue
		}
		if f.Anonymous {
			return fmt.Errorf("canon: %s: embedded struct %s has no form in a file", p.typ, f.Name)
		}
		if name == "" {
			name = f.Name
		}
		fp, err := pl.of(f.Type)
		if err != nil {
			return fmt.Errorf("%s.%s: %w", p.typ, f.Name, err)
		}
		fd := field{name: name, index: i, plan: fp, isZero: f.Type.Implements(hasIsZero)}
		for _, o := range strings.Split(opts, ",") {
			switch o {
			case "omitempty":
				fd.omitEmpty = true
			case "omitzero":
				fd.omitZero = true
			case "":
			default:
				return fmt.Errorf("canon: %s.%s: unknown json option %q", p.typ, f.Name, o)
			}
		}
		if _, twice := p.byName[name]; twice {
			return fmt.Errorf("canon: %s: two fields are named %q", p.typ, name)
		}
		p.byName[name] = len(p.fields)
		p.fields = append(p.fields, fd)
	}
	return nil
}
