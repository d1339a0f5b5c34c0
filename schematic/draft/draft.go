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
)

// Draft is a part kind being made or changed.
type Draft struct {
	k        schematic.Kind // without values and elements, also in its roles
	values   []owned[schematic.Param]
	elements []owned[schematic.Element]
	was      map[string]string // by a pin's name now: the name it had at first
	wasPiece map[string]string // the same for the pieces of the symbol
	shown    Picture           // in hand, where there is such a one
	named    bool              // the kind has a name that does not come from its title
}

// owned is a value or element together with the role that has it; "" is the
// kind itself. In one list they stand in the order they are shown.
type owned[T any] struct {
	role string
	it   T
}

// of returns what a role (or with "" the kind) owns, in order; nil for nothing.
func of[T any](all []owned[T], role string) []T {
	var mine []T
	for _, o := range all {
		if o.role == role {
			mine = append(mine, o.it)
		}
	}
	return mine
}

// New returns a kind with two pins and a plain box for a symbol.
func New() *Draft {
	return take(schematic.Kind{
		Group: "Components", Prefix: "A",
		Sections: []schematic.Section{{Form: "box"}},
		Pins:     []schematic.Pin{{Name: "1", Side: "left"}, {Name: "2", Side: "right"}},
	})
}

// Of returns a kind to change. As a copy it is a new one: without name, title
// and ID of the old.
func Of(k *schematic.Kind, asCopy bool) *Draft {
	d := take(copyKind(k))
	if asCopy {
		d.k.ID, d.k.Name, d.was, d.wasPiece, d.named = schematic.ID{}, "", nil, nil, false
		d.k.Title = k.Title + ", of my own"
	}
	return d
}

// take makes a draft of a kind that nobody else has.
func take(k schematic.Kind) *Draft {
	d := &Draft{k: k, was: map[string]string{}, wasPiece: map[string]string{}, named: k.Name != "" && k.Name != NameFrom(k.Title)}
	own := func(role string, params []schematic.Param, elements []schematic.Element) {
		for _, p := range params {
			d.values = append(d.values, owned[schematic.Param]{role, p})
		}
		for _, e := range elements {
			d.elements = append(d.elements, owned[schematic.Element]{role, e})
		}
	}
	own("", k.Params, k.Elements)
	d.k.Params, d.k.Elements = nil, nil
	for i := range d.k.Roles {
		r := &d.k.Roles[i]
		own(r.Name, r.Params, r.Elements)
		r.Params, r.Elements = nil, nil
	}
	for _, p := range k.Pins {
		d.was[p.Name] = p.Name
	}
	for _, s := range k.Sections {
		d.wasPiece[s.Name] = s.Name
	}
	return d
}

// Renamed returns the pins that bear another name than at first: from the old
// name to the new one.
func (d *Draft) Renamed() map[string]string {
	names := map[string]string{}
	for now, was := range d.was {
		if now != was {
			names[was] = now
		}
	}
	return names
}

// Kind returns a copy of what has been made so far. Its name comes from its
// title, unless it had another one at first.
func (d *Draft) Kind() *schematic.Kind {
	k := copyKind(&d.k)
	k.Params, k.Elements = of(d.values, ""), of(d.elements, "")
	for i := range k.Roles {
		r := &k.Roles[i]
		r.Params, r.Elements = of(d.values, r.Name), of(d.elements, r.Name)
	}
	k = copyKind(&k)
	if !d.named {
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
	c.Elements = copyElements(k.Elements)
	c.Pins = slices.Clone(k.Pins)
	for i := range c.Pins {
		c.Pins[i].Values = maps.Clone(c.Pins[i].Values)
	}
	c.Roles = slices.Clone(k.Roles)
	for i := range c.Roles {
		r := &c.Roles[i]
		r.Params, r.Elements, r.Shapes = slices.Clone(r.Params), copyElements(r.Elements), copyShapes(r.Shapes)
	}
	c.Positions = slices.Clone(k.Positions)
	c.Sections = slices.Clone(k.Sections)
	for i := range c.Sections {
		c.Sections[i].Shapes = copyShapes(c.Sections[i].Shapes)
	}
	return c
}

func copyElements(es []schematic.Element) []schematic.Element {
	c := slices.Clone(es)
	for i := range c {
		e := &c[i]
		e.Args, e.In, e.When = maps.Clone(e.Args), slices.Clone(e.In), slices.Clone(e.When)
	}
	return c
}

func copyShapes(ss []schematic.Shape) []schematic.Shape {
	c := slices.Clone(ss)
	for i := range c {
		c[i].Points = slices.Clone(c[i].Points)
	}
	return c
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
		switch {
		case p.Path == "name" && !d.named:
			continue // it comes with the title
		case p.Path == "title":
			p = catalog.Problem{Text: noTitle}
		}
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
	return nil
}

// noTitle is said of a kind that nobody could find in the tray.
const noTitle = "give the kind a title"

// place says in words where a problem lies: "pins[2].at" is "pin 31: ".
func (d *Draft) place(path string) string {
	k := d.Kind()
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
	case field == "pins" && i < len(k.Pins):
		return name("pin", k.Pins[i].Name)
	case field == "params" && i < len(k.Params):
		return name("value", k.Params[i].Name)
	case field == "elements" && i < len(k.Elements):
		return name("element", k.Elements[i].Name)
	case field == "roles" && i < len(k.Roles):
		if in := strokeIn(path); in != "" {
			return in + name("what stands at pins of role", k.Roles[i].Name)
		}
		return name("role", k.Roles[i].Name)
	case field == "sections" && i < len(k.Sections) && len(k.Sections) > 1:
		return strokeIn(path) + fmt.Sprintf("the piece %q: ", k.Sections[i].Name)
	case field == "sections":
		if in := strokeIn(path); in != "" {
			return in + "the symbol: "
		}
		return "symbol: "
	}
	return path + ": "
}

// strokeIn begins the place of a problem with a stroke: "stroke 2 of ".
func strokeIn(path string) string {
	_, shapes, ok := strings.Cut(path, "shapes[")
	if !ok {
		return ""
	}
	var j int
	fmt.Sscanf(shapes, "%d", &j)
	return fmt.Sprintf("stroke %d of ", j+1)
}
