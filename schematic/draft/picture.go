package draft

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Picture names something that is drawn stroke by stroke: a piece of the symbol,
// or what stands at the pins of a role.
type Picture struct {
	Piece string
	Role  string // "" for a piece
}

// Title is what people call the picture.
func (p Picture) Title() string {
	switch {
	case p.Role != "":
		return "at pins of role " + p.Role
	case p.Piece == "":
		return "the symbol"
	}
	return p.Piece
}

// Pictures lists what the symbol is drawn of: its pieces, and, where parts bring
// their own pins, what stands at the pins of each role.
func (d *Draft) Pictures() []Picture {
	var all []Picture
	for _, s := range d.k.Sections {
		all = append(all, Picture{Piece: s.Name})
	}
	for _, r := range d.k.Roles {
		if d.k.OwnPins || len(r.Shapes) > 0 {
			all = append(all, Picture{Role: r.Name})
		}
	}
	return all
}

// Shown is the picture in hand: what [Draft.Strokes] lists.
func (d *Draft) Shown() Picture {
	all := d.Pictures()
	switch {
	case slices.Contains(all, d.shown):
		return d.shown
	case len(all) > 0:
		return all[0]
	}
	return Picture{}
}

// Show takes another picture in hand.
func (d *Draft) Show(p Picture) { d.shown = p }

// shapes are the strokes of the picture in hand.
func (d *Draft) shapes() *[]schematic.Shape {
	at := d.Shown()
	for i := range d.k.Roles {
		if at.Role != "" && d.k.Roles[i].Name == at.Role {
			return &d.k.Roles[i].Shapes
		}
	}
	if len(d.k.Sections) == 0 {
		d.k.Sections = []schematic.Section{{}}
	}
	return &d.section().Shapes
}

// section is the piece in hand, the first where none is.
func (d *Draft) section() *schematic.Section {
	at := d.Shown()
	for i := range d.k.Sections {
		if at.Role == "" && d.k.Sections[i].Name == at.Piece {
			return &d.k.Sections[i]
		}
	}
	return &d.k.Sections[0]
}

// AddPiece gives the symbol one more piece, which may stand elsewhere on the
// sheets, and takes it in hand. It begins as a frame to draw in.
func (d *Draft) AddPiece() error {
	if d.k.OwnPins {
		return fmt.Errorf("parts of this kind bring their own pins: each part falls into as many boxes as its pin table says")
	}
	if len(d.k.Sections) == 1 {
		if err := d.SetForm(""); err != nil {
			return err
		}
	}
	if len(d.k.Sections) == 1 && d.k.Sections[0].Name == "" {
		d.Show(Picture{})
		if err := d.RenamePiece("piece 1"); err != nil {
			return err
		}
	}
	name := ""
	for n := len(d.k.Sections) + 1; name == "" || d.hasPiece(name); n++ {
		name = fmt.Sprintf("piece %d", n)
	}
	const r = 2 * geom.Grid
	d.k.Sections = append(d.k.Sections, schematic.Section{Name: name, Title: name,
		Shapes: []schematic.Shape{{Type: "rect", Points: []geom.Point{{X: -r, Y: -r}, {X: r, Y: r}}, Fill: "body"}}})
	d.Show(Picture{Piece: name})
	return nil
}

func (d *Draft) hasPiece(name string) bool {
	return slices.ContainsFunc(d.k.Sections, func(s schematic.Section) bool { return s.Name == name })
}

// RenamePiece gives the piece in hand another name; its pins follow.
func (d *Draft) RenamePiece(to string) error {
	at := d.Shown()
	switch {
	case at.Role != "":
		return fmt.Errorf("what stands at the pins of a role is called like the role: see Roles")
	case to == at.Piece:
		return nil
	case to == "":
		return fmt.Errorf("a piece needs a name")
	case d.hasPiece(to):
		return fmt.Errorf("the symbol has a piece %q already", to)
	}
	s := d.section()
	if s.Title == s.Name {
		s.Title = to
	}
	s.Name = to
	for i := range d.k.Pins {
		if d.k.Pins[i].Section == at.Piece {
			d.k.Pins[i].Section = to
		}
	}
	if was, ok := d.wasPiece[at.Piece]; ok {
		delete(d.wasPiece, at.Piece)
		d.wasPiece[to] = was
	}
	d.Show(Picture{Piece: to})
	return nil
}

// RemovePiece takes the piece in hand out of the symbol. Its pins must stand in
// another one before.
func (d *Draft) RemovePiece() error {
	at := d.Shown()
	if at.Role != "" {
		return fmt.Errorf("what stands at the pins of a role goes with its strokes, or with the role")
	}
	if len(d.k.Sections) == 1 {
		return fmt.Errorf("the symbol has only this piece")
	}
	for _, p := range d.k.Pins {
		if p.Section == at.Piece {
			return fmt.Errorf("pin %s stands in the piece %q: give it another one first, under Pins", p.Name, at.Piece)
		}
	}
	d.k.Sections = slices.DeleteFunc(d.k.Sections, func(s schematic.Section) bool { return s.Name == at.Piece })
	delete(d.wasPiece, at.Piece)
	return nil
}

// RenamedPieces is [Draft.Renamed] for the pieces of the symbol.
func (d *Draft) RenamedPieces() map[string]string {
	names := map[string]string{}
	for now, was := range d.wasPiece {
		if now != was {
			names[was] = now
		}
	}
	return names
}

// Preview returns a kind whose symbol is one picture alone, as it is to be drawn.
// What stands at the pins of a role is shown at one pin that leaves to the left,
// with the edge of the box dashed.
func (d *Draft) Preview(at Picture) *schematic.Kind {
	k := d.Kind()
	if at.Role != "" {
		role, _ := k.Role(at.Role)
		const half = 2 * geom.Grid
		shapes := append(copyShapes(role.Shapes),
			schematic.Shape{Type: "line", Points: []geom.Point{{}, {X: -schematic.PinStub}}},
			schematic.Shape{Type: "line", Points: []geom.Point{{Y: -half}, {Y: half}}, Weight: "thin", Dashed: true})
		return &schematic.Kind{Name: k.Name, Title: k.Title, Prefix: k.Prefix,
			Pins:     []schematic.Pin{{Name: "1", At: geom.Pt(-schematic.PinStub, 0), Dir: "left"}},
			Sections: []schematic.Section{{Shapes: shapes}}}
	}
	if len(k.Sections) < 2 {
		return k
	}
	k.Sections = slices.DeleteFunc(k.Sections, func(s schematic.Section) bool { return s.Name != at.Piece })
	k.Pins = slices.DeleteFunc(k.Pins, func(p schematic.Pin) bool { return p.Section != at.Piece })
	k.Elements, k.Params = nil, nil // they may mean pins of other pieces
	return k
}
