package draft

import (
	"fmt"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Form is how the symbol lays its pins out by itself: "box" along the sides of
// a box, "rows" as numbered cavities, "bar" along a rail; "" leaves it to the
// strokes and the place of each pin.
func (d *Draft) Form() string {
	if len(d.k.Sections) == 0 {
		return ""
	}
	return d.k.Sections[0].Form
}

// SetForm chooses how pins are laid out. A symbol that laid them out by itself
// leaves, when drawn stroke by stroke from now on, its outline and its pins
// where they stood, to go on from.
func (d *Draft) SetForm(form string) error {
	switch {
	case form == d.Form():
		return nil
	case form == "" && d.k.OwnPins:
		return fmt.Errorf("parts of this kind bring their own pins: their symbol lays them out by itself")
	case len(d.k.Sections) != 1:
		return fmt.Errorf("a symbol in %d pieces is drawn stroke by stroke: see to it that one piece is left first", len(d.k.Sections))
	}
	sec := &d.k.Sections[0]
	if form != "" {
		if sec.Form == "" {
			sec.Shapes = nil
			for i := range d.k.Pins {
				p := &d.k.Pins[i]
				p.Side = p.Dir
				p.At, p.Dir = geom.Point{}, ""
			}
		}
		sec.Form = form
		return nil
	}
	k := d.Kind()
	doc := schematic.New(schematic.NewLibrary(k))
	part := &schematic.Part{Kind: k.Name}
	placed := map[string]schematic.PlacedPin{}
	for _, pp := range doc.LocalPins(part, sec.Name) {
		placed[pp.Pin.Name] = pp
	}
	body := doc.LocalBody(part, sec.Name)
	sec.Form = ""
	sec.Shapes = append([]schematic.Shape{{Type: "rect", Points: []geom.Point{body.Min, body.Max}, Fill: "body"}}, sec.Shapes...)
	for i := range d.k.Pins {
		p := &d.k.Pins[i]
		pp, ok := placed[p.Name]
		if !ok {
			continue
		}
		p.At, p.Dir = pp.At, p.Side
		if p.Dir == "" {
			p.Dir = "left"
		}
		p.Side = ""
		sec.Shapes = append(sec.Shapes, schematic.Shape{Type: "line", Points: []geom.Point{pp.Edge, pp.At}})
	}
	return nil
}

// SetOwnPins chooses whether each part brings its own pins, as many as it has,
// each with one of the roles of the kind.
func (d *Draft) SetOwnPins(on bool) error {
	if on == d.k.OwnPins {
		return nil
	}
	if !on {
		for _, r := range d.k.Roles {
			if len(of(d.elements, r.Name)) > 0 || len(of(d.values, r.Name)) > 0 {
				return fmt.Errorf("the role %q has elements or values: take them out first, for pins of the kind have none of their own", r.Name)
			}
		}
		d.k.OwnPins = false
		return nil
	}
	if d.Form() == "" {
		if err := d.SetForm("box"); err != nil {
			return err
		}
	}
	if len(d.k.Roles) == 0 {
		d.k.Roles = []schematic.Role{{Name: "pin", Title: "pin"}}
	}
	for i := range d.k.Pins {
		if d.k.Pins[i].Role == "" {
			d.k.Pins[i].Role = d.k.Roles[0].Name
		}
	}
	d.k.OwnPins = true
	return nil
}
