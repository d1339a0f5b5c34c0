package draft

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
)

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
		{"While the engine is", "Only then it works: off, cranking, idle, running, with commas between; empty is always", 18},
		{"Of role", "The role whose pins have the element each for itself, between @, the pin, and an inner point; empty is the part", 12},
	}
	fresh := func() owned[schematic.Element] {
		o := owned[schematic.Element]{it: schematic.Element{Name: "element " + strconv.Itoa(len(d.elements)+1), Type: schematic.ElemResistor}}
		if n := len(d.k.Pins); d.k.OwnPins && len(d.k.Roles) > 0 {
			o.role, o.it.A, o.it.B = d.k.Roles[0].Name, "@", innerPoint
		} else if n > 0 {
			o.it.A, o.it.B = d.k.Pins[0].Name, d.k.Pins[n-1].Name
		}
		d.need(&o)
		return o
	}
	l := listOf(&d.elements, fresh, cols, elementText, func(o *owned[schematic.Element], col int, s string) error {
		defer d.tidy()
		return d.setElement(o, col, s)
	})
	remove := l.remove
	l.remove = func(line int) {
		remove(line)
		d.tidy()
	}
	if d.k.OwnPins {
		return l.bringForward()
	}
	return l
}

// innerPoint is where elements of a kind with own pins meet at first.
const innerPoint = "#common"

// tidy takes out values that were added with an element that no longer needs
// them, and that nobody has said anything about.
func (d *Draft) tidy() {
	type mark struct{ role, name string }
	used := map[mark]bool{}
	for _, e := range d.elements {
		for _, a := range e.it.Args {
			used[mark{d.meant(e.role, a.Param), a.Param}] = true
		}
	}
	d.values = slices.DeleteFunc(d.values, func(v owned[schematic.Param]) bool {
		p := v.it
		return !used[mark{v.role, p.Name}] && !slices.Contains(catalog.RuleParams(), p.Name) &&
			!p.Default.Known() && p.Source == "" && p.Title == plainTitle(p.Name)
	})
}

// plainTitle is the title of a value that was added by itself.
func plainTitle(name string) string {
	switch name {
	case "ohm":
		return "resistance"
	case "volt":
		return "voltage"
	case "amp":
		return "current"
	case "watt":
		return "power"
	case "limit_amp":
		return "highest current"
	case "stall_amp":
		return "stall current"
	case "min_volt":
		return "least voltage it works at"
	case "pull_in_volt":
		return "pull-in voltage"
	case "drop_out_volt":
		return "drop-out voltage"
	}
	return strings.ReplaceAll(name, "_", " ")
}

func elementText(o *owned[schematic.Element], col int) string {
	e := &o.it
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
	case 8:
		words := make([]string, len(e.When))
		for i, w := range e.When {
			words[i] = string(w)
		}
		return strings.Join(words, ", ")
	case 9:
		return o.role
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
// the kind (or of the role it is of) by the same name, which are added.
func (d *Draft) need(o *owned[schematic.Element]) {
	e := &o.it
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
		if p := d.value(d.meant(o.role, name), name); p == nil {
			d.values = append(d.values, owned[schematic.Param]{o.role, schematic.Param{Name: name, Title: plainTitle(name), Unit: catalog.ArgUnit(name)}})
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

func (d *Draft) setElement(o *owned[schematic.Element], col int, s string) error {
	e := &o.it
	switch col {
	case 0:
		if s == "" {
			return fmt.Errorf("an element needs a name")
		}
		for i := range d.elements {
			if x := &d.elements[i]; x.role == o.role && x.it.Coil == e.Name && e.Type == schematic.ElemCoil {
				x.it.Coil = s
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
		d.need(o)
	case 2:
		return d.setNode(o.role, &e.A, s)
	case 3:
		return d.setNode(o.role, &e.B, s)
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
		return d.setMover(o, s)
	case 8:
		return setWhen(e, s)
	case 9:
		return d.setOwner(o, s)
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

// setNode puts the end of an element at a pin or inner point; "@" is the pin of
// a role.
func (d *Draft) setNode(role string, to *string, s string) error {
	if strings.HasPrefix(s, "#") && len(s) > 1 {
		*to = s
		return nil
	}
	if role != "" {
		if s != "@" {
			return fmt.Errorf("%q is neither @, the pin with the role %s, nor an inner point such as %s", s, role, innerPoint)
		}
		*to = s
		return nil
	}
	if d.k.OwnPins {
		return fmt.Errorf("%q is no inner point such as %s: an element at pins that each part brings itself is of a role, and @ stands for the pin", s, innerPoint)
	}
	if !slices.ContainsFunc(d.k.Pins, func(p schematic.Pin) bool { return p.Name == s }) {
		var names []string
		for _, p := range d.k.Pins {
			names = append(names, p.Name)
		}
		return fmt.Errorf("%q is neither a pin (%s) nor an inner point such as #rail", s, strings.Join(names, ", "))
	}
	*to = s
	return nil
}

// setWhen limits an element to states of the engine.
func setWhen(e *schematic.Element, s string) error {
	var words []string
	for _, w := range schematic.Engines() {
		words = append(words, string(w))
	}
	var when []schematic.Engine
	for _, w := range strings.Split(s, ",") {
		if w = strings.ToLower(strings.TrimSpace(w)); w == "" {
			continue
		}
		word, err := oneOf("a state of the engine", w, words)
		if err != nil {
			return err
		}
		if !slices.Contains(when, schematic.Engine(word)) {
			when = append(when, schematic.Engine(word))
		}
	}
	if len(when) == len(words) {
		when = nil // always
	}
	e.When = when
	return nil
}

// setOwner gives an element to a role or to the kind; an end that means nothing
// there is put where elements meet.
func (d *Draft) setOwner(o *owned[schematic.Element], s string) error {
	role, err := d.ownerNamed(s)
	if err != nil || role == o.role {
		return err
	}
	e := &o.it
	inner := func(n string) bool { return strings.HasPrefix(n, "#") }
	switch {
	case role == "":
		for _, end := range []*string{&e.A, &e.B} {
			if *end == "@" {
				*end = innerPoint
			}
		}
	case e.A != "@" && e.B != "@":
		if inner(e.A) && !inner(e.B) {
			e.B = "@"
		} else {
			e.A = "@"
		}
	}
	if role != "" {
		for _, end := range []*string{&e.A, &e.B} {
			if *end != "@" && !inner(*end) {
				*end = innerPoint
			}
		}
	}
	e.Coil, e.Break, e.Feed = "", false, ""
	d.takeValues(o, role)
	o.role = role
	d.need(o)
	return nil
}

// takeValues brings the values of an element along to the role it goes to: those
// that nobody else means are moved.
func (d *Draft) takeValues(o *owned[schematic.Element], role string) {
	for _, arg := range slices.Sorted(maps.Keys(o.it.Args)) {
		name := o.it.Args[arg].Param
		from := d.meant(o.role, name)
		if name == "" || d.value(d.meant(role, name), name) != nil || d.value(from, name) == nil {
			continue
		}
		shared := false
		for i := range d.elements {
			e := &d.elements[i]
			for _, a := range e.it.Args {
				shared = shared || e != o && a.Param == name && d.meant(e.role, name) == from
			}
		}
		if shared {
			d.values = append(d.values, owned[schematic.Param]{role, *d.value(from, name)})
			continue
		}
		for i := range d.values {
			if v := &d.values[i]; v.role == from && v.it.Name == name {
				v.role = role
			}
		}
	}
}

// setMover says what moves a contact: a coil, or switch positions, which are
// added to the kind; of a regulator, what feeds it.
func (d *Draft) setMover(o *owned[schematic.Element], s string) error {
	e := &o.it
	if e.Type == schematic.ElemRegulator {
		return d.setNode(o.role, &e.Feed, s)
	}
	if e.Type != schematic.ElemContact {
		return fmt.Errorf("only a contact is moved by something")
	}
	if slices.ContainsFunc(d.elements, func(x owned[schematic.Element]) bool {
		return x.role == o.role && x.it.Type == schematic.ElemCoil && x.it.Name == s
	}) {
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
