package draft

import (
	"fmt"
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
		{"Of role", "The role whose pins have the value each for itself; empty is the part", 12},
	}
	fresh := func() owned[schematic.Param] {
		for n := 1; ; n++ {
			name := "value_" + strconv.Itoa(n)
			if d.value("", name) == nil {
				return owned[schematic.Param]{it: schematic.Param{Name: name, Unit: "ohm"}}
			}
		}
	}
	l := listOf(&d.values, fresh, cols, valueCell, d.setValueCell)
	if d.k.OwnPins {
		return l.bringForward()
	}
	return l
}

// valueCell says what a value has in a column.
func valueCell(o *owned[schematic.Param], col int) string {
	p := &o.it
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
	case 4:
		return p.Source
	}
	return o.role
}

// setValueCell takes what was typed into a column of a value.
func (d *Draft) setValueCell(o *owned[schematic.Param], col int, s string) error {
	p := &o.it
	switch col {
	case 0:
		return d.renameValue(o, s)
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
	case 5:
		role, err := d.ownerNamed(s)
		if err != nil {
			return err
		}
		if role != o.role && d.value(role, p.Name) != nil {
			return fmt.Errorf("there is a value %q already", p.Name)
		}
		o.role = role
	}
	return nil
}

// value returns the value of a role (or with "" of the kind) itself, or nil.
func (d *Draft) value(role, name string) *schematic.Param {
	for i := range d.values {
		if v := &d.values[i]; v.role == role && v.it.Name == name {
			return &v.it
		}
	}
	return nil
}

// meant returns the role whose value an element of a role means by a name: its
// own, else that of the kind.
func (d *Draft) meant(role, name string) string {
	if d.value(role, name) != nil {
		return role
	}
	return ""
}

func (d *Draft) renameValue(v *owned[schematic.Param], to string) error {
	if to == v.it.Name {
		return nil
	}
	to = strings.ReplaceAll(strings.ToLower(to), " ", "_")
	switch {
	case to == "":
		return fmt.Errorf("a value needs a name")
	case d.value(v.role, to) != nil:
		return fmt.Errorf("there is a value %q already", to)
	}
	for _, e := range d.elements {
		for arg, a := range e.it.Args {
			if a.Param == v.it.Name && d.meant(e.role, a.Param) == v.role {
				e.it.Args[arg] = schematic.Arg{Param: to}
			}
		}
	}
	v.it.Name = to
	return nil
}
