// Package draft is a part kind in the making: lists of pins, strokes, values and
// elements whose cells are texts, as a form shows and reads them.
//
// Start with [New] or [Of]. A [Draft] owns its kind; [Draft.Kind] returns a copy
// at any time, whether it is sound or not, and [Draft.Problems] says in plain
// words what keeps it from being used.
package draft

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/geom"
)

// Draft is a part kind being made or changed.
type Draft struct {
	k schematic.Kind
}

// New returns a kind with two pins and a plain box for a symbol.
func New() *Draft {
	return &Draft{k: schematic.Kind{
		Group: "Components", Prefix: "A",
		Sections: []schematic.Section{{Form: "box"}},
		Pins:     []schematic.Pin{{Name: "1", Side: "left"}, {Name: "2", Side: "right"}},
	}}
}

// Of returns a kind to change. As a copy it is a new one: without name, title
// and ID of the old.
func Of(k *schematic.Kind, asCopy bool) *Draft {
	d := &Draft{k: copyKind(k)}
	if asCopy {
		d.k.ID, d.k.Name, d.k.OtherHalf = schematic.ID{}, "", ""
		d.k.Title = k.Title + ", of my own"
	}
	return d
}

// Kind returns a copy of what has been made so far. A kind without a name gets
// one from its title.
func (d *Draft) Kind() *schematic.Kind {
	k := copyKind(&d.k)
	if strings.TrimSpace(k.Name) == "" {
		k.Name = NameFrom(k.Title)
	}
	return &k
}

// Edit lets a form change the fields that are no lists.
func (d *Draft) Edit(f func(*schematic.Kind)) { f(&d.k) }

// NameFrom makes the name of a kind from its title: "Work lamp, LED" gives
// work-lamp-led.
func NameFrom(title string) string {
	words := strings.FieldsFunc(strings.ToLower(title), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return strings.Join(words, "-")
}

func copyKind(k *schematic.Kind) schematic.Kind {
	c := *k
	c.Params = slices.Clone(k.Params)
	c.Pins = slices.Clone(k.Pins)
	for i := range c.Pins {
		c.Pins[i].Values = maps.Clone(c.Pins[i].Values)
	}
	c.Roles = slices.Clone(k.Roles)
	c.Positions = slices.Clone(k.Positions)
	c.Elements = slices.Clone(k.Elements)
	for i := range c.Elements {
		e := &c.Elements[i]
		e.Args, e.In, e.When = maps.Clone(e.Args), slices.Clone(e.In), slices.Clone(e.When)
	}
	c.Sections = slices.Clone(k.Sections)
	for i := range c.Sections {
		c.Sections[i].Shapes = slices.Clone(c.Sections[i].Shapes)
		for j := range c.Sections[i].Shapes {
			c.Sections[i].Shapes[j].Points = slices.Clone(c.Sections[i].Shapes[j].Points)
		}
	}
	return c
}

// Boxed reports whether the symbol is a box that lays its pins out by itself.
func (d *Draft) Boxed() bool {
	return len(d.k.Sections) > 0 && d.k.Sections[0].Form == "box"
}

// SetBoxed chooses between the box and a symbol drawn stroke by stroke. A box
// given up leaves its outline and its pins where they stood, to go on from.
func (d *Draft) SetBoxed(on bool) error {
	switch {
	case on == d.Boxed():
		return nil
	case d.k.OwnPins:
		return fmt.Errorf("parts of this kind bring their own pins: their symbol lays them out by itself")
	case len(d.k.Sections) != 1:
		return fmt.Errorf("a symbol in %d pieces is drawn stroke by stroke", len(d.k.Sections))
	}
	sec := &d.k.Sections[0]
	if on {
		sec.Form, sec.Shapes = "box", nil
		for i := range d.k.Pins {
			p := &d.k.Pins[i]
			p.Side = p.Dir
			p.At, p.Dir = geom.Point{}, ""
		}
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

// Problem is something that keeps a kind from being used, or, when Minor, that
// would better be given.
type Problem struct {
	Text  string
	Minor bool
}

// Problems says what is wrong, graver things first.
func (d *Draft) Problems() []Problem {
	var out []Problem
	for _, p := range catalog.Validate(d.Kind()) {
		out = append(out, Problem{d.place(p.Path) + p.Text, p.Minor})
	}
	slices.SortStableFunc(out, func(a, b Problem) int {
		switch {
		case a.Minor == b.Minor:
			return 0
		case a.Minor:
			return 1
		}
		return -1
	})
	return out
}

// Drawable reports whether the symbol can be drawn as it is.
func (d *Draft) Drawable() bool {
	for _, p := range catalog.Validate(d.Kind()) {
		if list, _, _ := strings.Cut(p.Path, "["); !p.Minor && (list == "sections" || list == "pins" || list == "roles") {
			return false
		}
	}
	return true
}

// Sound reports whether the kind can be used.
func (d *Draft) Sound() error {
	for _, p := range d.Problems() {
		if !p.Minor {
			return fmt.Errorf("%s", p.Text)
		}
	}
	if strings.TrimSpace(d.k.Title) == "" {
		return fmt.Errorf("give the kind a title")
	}
	return nil
}

// place says in words where a problem lies: "pins[2].at" is "pin 31: ".
func (d *Draft) place(path string) string {
	field, rest, _ := strings.Cut(path, "[")
	var i int
	if n, _ := fmt.Sscanf(rest, "%d", &i); n != 1 {
		if path == "" {
			return ""
		}
		return map[string]string{"prefix": "letters"}[path] + map[bool]string{true: path}[path != "prefix"] + ": "
	}
	name := func(what, name string) string {
		if name == "" {
			return fmt.Sprintf("%s in line %d: ", what, i+1)
		}
		return what + " " + name + ": "
	}
	switch {
	case field == "pins" && i < len(d.k.Pins):
		return name("pin", d.k.Pins[i].Name)
	case field == "params" && i < len(d.k.Params):
		return name("value", d.k.Params[i].Name)
	case field == "elements" && i < len(d.k.Elements):
		return name("element", d.k.Elements[i].Name)
	case field == "roles" && i < len(d.k.Roles):
		return name("role", d.k.Roles[i].Name)
	case field == "sections":
		var j int
		if _, shapes, ok := strings.Cut(path, "shapes["); ok {
			fmt.Sscanf(shapes, "%d", &j)
			return fmt.Sprintf("stroke %d of the symbol: ", d.strokeLine(i, j))
		}
		return "symbol: "
	}
	return path + ": "
}
