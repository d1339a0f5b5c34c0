package draft

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
)

// Values is the list of values a part of the kind has.
func (d *Draft) Values() *List {
	cols := []Column{
		{"Name", "A short name that elements refer to, such as coil_ohm", 16},
		{"What it is", "In words", 26},
		{"Unit", strings.Join(catalog.Units(), ", "), 8},
		{"Usual value", "Used where a part does not say; empty where only a measurement can tell", 14},
		{"Source of it", "Where the usual value comes from", 34},
	}
	fresh := func() schematic.Param {
		for n := 1; ; n++ {
			name := "value_" + strconv.Itoa(n)
			if _, taken := d.k.Param(name); !taken {
				return schematic.Param{Name: name, Unit: "ohm"}
			}
		}
	}
	return listOf(&d.k.Params, fresh, cols, func(p *schematic.Param, col int) string {
		switch col {
		case 0:
			return p.Name
		case 1:
			return p.Title
		case 2:
			return p.Unit
		case 3:
			v, ok := p.Default.Get()
			if !ok {
				return ""
			}
			return unit.Exact(p.Quantity(), v)
		}
		return p.Source
	}, func(p *schematic.Param, col int, s string) error {
		switch col {
		case 0:
			return d.renameValue(p, s)
		case 1:
			p.Title = s
		case 2:
			u, err := oneOf("a unit", s, catalog.Units())
			if err != nil {
				return err
			}
			if u != p.Unit {
				p.Unit, p.Default = u, schematic.Num{}
			}
		case 3:
			if s == "" {
				p.Default = schematic.Num{}
				return nil
			}
			v, err := unit.Parse(p.Quantity(), s)
			if err != nil {
				return err
			}
			p.Default = schematic.Some(v)
		case 4:
			p.Source = s
		}
		return nil
	})
}

func (d *Draft) renameValue(p *schematic.Param, to string) error {
	to = strings.ReplaceAll(strings.ToLower(to), " ", "_")
	switch _, taken := d.k.Param(to); {
	case to == p.Name:
		return nil
	case to == "":
		return fmt.Errorf("a value needs a name")
	case taken:
		return fmt.Errorf("there is a value %q already", to)
	}
	for _, e := range d.k.Elements {
		for arg, a := range e.Args {
			if a.Param == p.Name {
				e.Args[arg] = schematic.Arg{Param: to}
			}
		}
	}
	p.Name = to
	return nil
}

// Elements is the list of what the kind is electrically.
func (d *Draft) Elements() *List {
	types := make([]string, 0)
	for _, t := range schematic.ElementTypes() {
		types = append(types, string(t))
	}
	cols := []Column{
		{"Name", "What to call it: coil, make contact", 14},
		{"Type", strings.Join(types, ", "), 16},
		{"From", "A pin; the positive side of sources, the anode of diodes. #rail and the like are inner points", 8},
		{"To", "A pin or inner point", 8},
		{"Values", "What the type needs, each a number or the name of a value: ohm = coil_ohm, pull_in_volt = 7.2", 34},
		{"Kind of load", strings.Join(catalog.Loads(), ", "), 13},
		{"Moved by", "Of a contact: the coil that moves it, or switch positions with commas between", 18},
		{"At rest", "Of a contact with a coil: closed or open", 9},
	}
	fresh := func() schematic.Element {
		e := schematic.Element{Name: "element " + strconv.Itoa(len(d.k.Elements)+1), Type: schematic.ElemResistor}
		if n := len(d.k.Pins); n > 0 {
			e.A, e.B = d.k.Pins[0].Name, d.k.Pins[n-1].Name
		}
		d.need(&e)
		return e
	}
	l := listOf(&d.k.Elements, fresh, cols, elementText, func(e *schematic.Element, col int, s string) error {
		defer d.tidy()
		return d.setElement(e, col, s)
	})
	remove := l.remove
	l.remove = func(line int) {
		remove(line)
		d.tidy()
	}
	return l
}

// tidy takes out values that were added with an element that no longer needs
// them, and that nobody has said anything about.
func (d *Draft) tidy() {
	used := map[string]bool{}
	for _, name := range catalog.RuleParams() {
		used[name] = true
	}
	note := func(es []schematic.Element) {
		for _, e := range es {
			for _, a := range e.Args {
				used[a.Param] = true
			}
		}
	}
	note(d.k.Elements)
	for _, r := range d.k.Roles {
		note(r.Elements)
	}
	d.k.Params = slices.DeleteFunc(d.k.Params, func(p schematic.Param) bool {
		return !used[p.Name] && !p.Default.Known() && p.Source == "" && p.Title == plainTitle(p.Name)
	})
}

// plainTitle is the title of a value that was added by itself.
func plainTitle(name string) string { return strings.ReplaceAll(name, "_", " ") }

func elementText(e *schematic.Element, col int) string {
	switch col {
	case 0:
		return e.Name
	case 1:
		return string(e.Type)
	case 2:
		return e.A
	case 3:
		return e.B
	case 4:
		return argsText(e.Args)
	case 5:
		return e.Load
	case 6:
		if e.Coil != "" {
			return e.Coil
		}
		if e.Feed != "" {
			return e.Feed
		}
		return strings.Join(e.In, ", ")
	}
	if e.Type == schematic.ElemContact && e.Coil != "" {
		return map[bool]string{true: "closed", false: "open"}[e.Break]
	}
	return ""
}

func argsText(args map[string]schematic.Arg) string {
	var parts []string
	for _, name := range slices.Sorted(maps.Keys(args)) {
		a := args[name]
		v := a.Param
		if v == "" {
			v = strconv.FormatFloat(a.Value, 'g', -1, 64)
		}
		parts = append(parts, name+" = "+v)
	}
	return strings.Join(parts, ", ")
}

// readArgs reads "ohm = coil_ohm, volt = 12".
func readArgs(s string) (map[string]schematic.Arg, error) {
	args := map[string]schematic.Arg{}
	for _, part := range strings.Split(s, ",") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		name, value, ok := strings.Cut(part, "=")
		name, value = strings.TrimSpace(name), strings.TrimSpace(value)
		if !ok || name == "" || value == "" {
			return nil, fmt.Errorf("%q: write what it is, =, and a number or the name of a value, as in ohm = coil_ohm", strings.TrimSpace(part))
		}
		if v, err := strconv.ParseFloat(value, 64); err == nil {
			if !(v >= -schematic.MaxNum && v <= schematic.MaxNum) {
				return nil, fmt.Errorf("%s is out of range", value)
			}
			args[name] = schematic.Arg{Value: v}
		} else {
			args[name] = schematic.Arg{Param: value}
		}
	}
	if len(args) == 0 {
		return nil, nil
	}
	return args, nil
}

// need gives an element what its type needs and it does not have, as values of
// the kind by the same name, which are added.
func (d *Draft) need(e *schematic.Element) {
	need, may := catalog.Args(e.Type)
	args := map[string]schematic.Arg{}
	for name, a := range e.Args {
		if slices.Contains(need, name) || slices.Contains(may, name) {
			args[name] = a
		}
	}
	for _, name := range need {
		if _, has := args[name]; has {
			continue
		}
		args[name] = schematic.Arg{Param: name}
		if p, taken := d.k.Param(name); !taken {
			d.k.Params = append(d.k.Params, schematic.Param{Name: name, Title: plainTitle(name), Unit: catalog.ArgUnit(name)})
		} else if p.Unit != catalog.ArgUnit(name) {
			delete(args, name)
		}
	}
	e.Args = args
	if len(args) == 0 {
		e.Args = nil
	}
	if e.Type != schematic.ElemContact {
		e.Coil, e.Break, e.In = "", false, nil
	}
	if e.Type != schematic.ElemRegulator {
		e.Feed = ""
	}
}

func (d *Draft) setElement(e *schematic.Element, col int, s string) error {
	switch col {
	case 0:
		if s == "" {
			return fmt.Errorf("an element needs a name")
		}
		for i := range d.k.Elements {
			if d.k.Elements[i].Coil == e.Name && e.Type == schematic.ElemCoil {
				d.k.Elements[i].Coil = s
			}
		}
		e.Name = s
	case 1:
		var words []string
		for _, t := range schematic.ElementTypes() {
			words = append(words, string(t))
		}
		t, err := oneOf("a type of element", strings.ToLower(s), words)
		if err != nil {
			return err
		}
		e.Type = schematic.ElementType(t)
		d.need(e)
	case 2:
		return d.setNode(&e.A, s)
	case 3:
		return d.setNode(&e.B, s)
	case 4:
		args, err := readArgs(s)
		if err != nil {
			return err
		}
		e.Args = args
	case 5:
		if s != "" {
			var err error
			if s, err = oneOf("a kind of load", strings.ToLower(s), catalog.Loads()); err != nil {
				return err
			}
		}
		e.Load = s
	case 6:
		return d.setMover(e, s)
	case 7:
		if e.Type != schematic.ElemContact || e.Coil == "" {
			return fmt.Errorf("only a contact that a coil moves is open or closed at rest")
		}
		word, err := oneOf("open or closed", strings.ToLower(s), []string{"open", "closed"})
		if err != nil {
			return err
		}
		e.Break = word == "closed"
	}
	return nil
}

func (d *Draft) setNode(to *string, s string) error {
	pin := slices.ContainsFunc(d.k.Pins, func(p schematic.Pin) bool { return p.Name == s })
	if !pin && !(strings.HasPrefix(s, "#") && len(s) > 1) {
		var names []string
		for _, p := range d.k.Pins {
			names = append(names, p.Name)
		}
		return fmt.Errorf("%q is neither a pin (%s) nor an inner point such as #rail", s, strings.Join(names, ", "))
	}
	*to = s
	return nil
}

// setMover says what moves a contact: a coil, or switch positions, which are
// added to the kind; of a regulator, what feeds it.
func (d *Draft) setMover(e *schematic.Element, s string) error {
	if e.Type == schematic.ElemRegulator {
		return d.setNode(&e.Feed, s)
	}
	if e.Type != schematic.ElemContact {
		return fmt.Errorf("only a contact is moved by something")
	}
	if slices.ContainsFunc(d.k.Elements, func(x schematic.Element) bool { return x.Type == schematic.ElemCoil && x.Name == s }) {
		e.Coil, e.In = s, nil
		return nil
	}
	e.Coil, e.Break, e.In = "", false, nil
	for _, p := range strings.Split(s, ",") {
		if p = strings.TrimSpace(p); p == "" {
			continue
		}
		if !slices.Contains(d.k.Positions, p) {
			if len(d.k.Positions) == 0 && p != "off" {
				d.k.Positions = []string{"off"} // where it rests
			}
			d.k.Positions = append(d.k.Positions, p)
		}
		e.In = append(e.In, p)
	}
	return nil
}
