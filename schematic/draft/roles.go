package draft

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
)

// Roles is the list of what a pin of the kind can be.
func (d *Draft) Roles() *List {
	cols := []Column{
		{"Role", "A short name that pins refer to, such as low-side", 16},
		{"What it is", "In words", 28},
		{"Signal", "What rules take such a pin for: " + strings.Join(catalog.Signals(), ", ") + "; may stay empty", 16},
	}
	fresh := func() schematic.Role {
		for n := 1; ; n++ {
			name := fmt.Sprintf("role-%d", n)
			if _, taken := d.k.Role(name); !taken {
				return schematic.Role{Name: name, Title: name}
			}
		}
	}
	l := listOf(&d.k.Roles, fresh, cols, func(r *schematic.Role, col int) string {
		switch col {
		case 0:
			return r.Name
		case 1:
			return r.Title
		}
		return r.Signal
	}, func(r *schematic.Role, col int, s string) error {
		switch col {
		case 0:
			return d.renameRole(r, s)
		case 1:
			r.Title = s
		case 2:
			if s != "" {
				var err error
				if s, err = oneOf("a signal", strings.ToLower(s), catalog.Signals()); err != nil {
					return err
				}
			}
			r.Signal = s
		}
		return nil
	})
	l.remove = d.removeRole
	return l
}

// renameRole gives a role another name; what refers to it follows.
func (d *Draft) renameRole(r *schematic.Role, to string) error {
	if to == r.Name {
		return nil
	}
	to = NameFrom(to)
	switch _, taken := d.k.Role(to); {
	case to == r.Name:
		return nil
	case to == "":
		return fmt.Errorf("a role needs a name")
	case taken:
		return fmt.Errorf("there is a role %q already", to)
	}
	d.moveRole(r.Name, to)
	if d.shown.Role == r.Name {
		d.shown.Role = to
	}
	r.Name = to
	return nil
}

// removeRole takes a role out together with its elements and values; pins that
// had it have the first one there is.
func (d *Draft) removeRole(line int) {
	name := d.k.Roles[line].Name
	d.k.Roles = slices.Delete(d.k.Roles, line, line+1)
	d.elements = slices.DeleteFunc(d.elements, func(e owned[schematic.Element]) bool { return e.role == name })
	d.values = slices.DeleteFunc(d.values, func(v owned[schematic.Param]) bool { return v.role == name })
	to := ""
	if d.k.OwnPins && len(d.k.Roles) > 0 {
		to = d.k.Roles[0].Name
	}
	d.moveRole(name, to)
}

// moveRole leads what refers to a role to another one.
func (d *Draft) moveRole(from, to string) {
	for i := range d.k.Pins {
		if d.k.Pins[i].Role == from {
			d.k.Pins[i].Role = to
		}
	}
	for i := range d.elements {
		if d.elements[i].role == from {
			d.elements[i].role = to
		}
	}
	for i := range d.values {
		if d.values[i].role == from {
			d.values[i].role = to
		}
	}
}

// roleNamed returns the role of a name. That of a signal is added when the kind
// has none of that name: "sensor-ground" needs no more said.
func (d *Draft) roleNamed(s string) (string, error) {
	if s == "" && d.k.OwnPins {
		return "", fmt.Errorf("an own pin needs a role: write one of %s", strings.Join(d.roleNames(), ", "))
	}
	if s == "" {
		return "", nil
	}
	if name, ok := d.findRole(s); ok {
		return name, nil
	}
	if name := NameFrom(s); slices.Contains(catalog.Signals(), name) {
		d.k.Roles = append(d.k.Roles, schematic.Role{Name: name, Title: strings.ReplaceAll(name, "-", " "), Signal: name})
		return name, nil
	}
	return "", fmt.Errorf("the kind has no role %q: write one of %s, or add it under Roles first", s, strings.Join(append(d.roleNames(), catalog.Signals()...), ", "))
}

// findRole returns the role of a name, however it is written.
func (d *Draft) findRole(s string) (string, bool) {
	for _, name := range []string{s, NameFrom(s)} {
		if _, ok := d.k.Role(name); ok {
			return name, true
		}
	}
	return "", false
}

func (d *Draft) roleNames() []string {
	var names []string
	for _, r := range d.k.Roles {
		names = append(names, r.Name)
	}
	return names
}

// ownerNamed returns the role that shall have an element or value; "" is the
// kind.
func (d *Draft) ownerNamed(s string) (string, error) {
	if s == "" {
		return "", nil
	}
	if !d.k.OwnPins {
		return "", fmt.Errorf("only pins that each part brings itself have elements and values of their own: see General")
	}
	name, ok := d.findRole(s)
	if !ok {
		return "", fmt.Errorf("the kind has no role %q: write one of %s", s, strings.Join(d.roleNames(), ", "))
	}
	return name, nil
}
