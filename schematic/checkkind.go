package schematic

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// CheckKind returns what in a part kind refers to nothing, or to more than one
// thing: elements at pins it does not have or of a type nobody knows, arguments
// that name no parameter, contacts without their coil, names given twice. An
// element like that would be left out of the computation without a word. Paths
// are within the kind: "elements[2].a".
func CheckKind(k *Kind) []Problem {
	c := kindChecker{k: k, pins: map[string]bool{}}
	if len(k.Sections) == 0 {
		c.add("sections", "a kind needs at least one section, its symbol")
	}
	for i, p := range k.Pins {
		c.pin(fmt.Sprintf("pins[%d]", i), p)
	}
	c.params("params", k.Params)
	seen := map[string]bool{}
	for i, p := range k.Positions {
		c.unique(fmt.Sprintf("positions[%d]", i), "position", p, seen)
	}
	seen = map[string]bool{}
	for i, r := range k.Roles {
		at := fmt.Sprintf("roles[%d]", i)
		c.unique(at+".name", "role", r.Name, seen)
		c.params(at+".params", r.Params)
		c.elements(at+".elements", r.Elements, func(n string) bool { return n == "@" }, "neither @, the pin,", r.Params, k.Params)
	}
	atPin := func(n string) bool { return c.pins[n] && !k.OwnPins } // own pins are of the part: only inner nodes are sure
	c.elements("elements", k.Elements, atPin, "neither a pin", k.Params)
	return c.out
}

type kindChecker struct {
	k    *Kind
	pins map[string]bool // names of the kind's pins
	out  []Problem
}

func (c *kindChecker) add(path, format string, args ...any) {
	c.out = append(c.out, Problem{c.k.Key(), path, fmt.Sprintf(format, args...)})
}

// unique complains about an empty name or one in seen, then remembers it.
func (c *kindChecker) unique(path, what, name string, seen map[string]bool) {
	switch {
	case strings.TrimSpace(name) == "":
		c.add(path, "%s needs a name", what)
	case seen[name]:
		c.add(path, "%s %q is there twice", what, name)
	}
	seen[name] = true
}

func (c *kindChecker) params(path string, params []Param) {
	seen := map[string]bool{}
	for i, p := range params {
		c.unique(fmt.Sprintf("%s[%d].name", path, i), "parameter", p.Name, seen)
	}
}

func (c *kindChecker) pin(at string, p Pin) {
	c.unique(at+".name", "pin", p.Name, c.pins)
	if _, ok := c.k.Section(p.Section); !ok && len(c.k.Sections) > 0 {
		c.add(at+".section", "pin %q is in the section %q, which the kind has not", p.Name, p.Section)
	}
	if _, ok := c.k.Role(p.Role); !ok && (c.k.OwnPins || p.Role != "") {
		c.add(at+".role", "pin %q has the role %q, which the kind has not", p.Name, p.Role)
	}
}

// elements checks a list of elements, which may stand at the pins that isPin
// knows and name the given parameters.
func (c *kindChecker) elements(path string, all []Element, isPin func(string) bool, neither string, params ...[]Param) {
	seen := map[string]bool{}
	for i, e := range all {
		at := fmt.Sprintf("%s[%d]", path, i)
		c.unique(at+".name", "element", e.Name, seen)
		if !slices.Contains(ElementTypes(), e.Type) {
			c.add(at+".type", "%q is not an element type: write one of %v", e.Type, ElementTypes())
			continue
		}
		ends := []struct{ field, name string }{{".a", e.A}, {".b", e.B}}
		if e.Type == ElemRegulator {
			ends = append(ends, struct{ field, name string }{".feed", e.Feed})
		}
		for _, end := range ends {
			if inner := strings.HasPrefix(end.name, "#") && len(end.name) > 1; !inner && !isPin(end.name) {
				c.add(at+end.field, "%q is %s nor an inner node such as #rail", end.name, neither)
			}
		}
		c.args(at+".args", e, params)
		c.contact(at, e, all)
		for j, w := range e.When {
			if !slices.Contains(Engines(), w) {
				c.add(fmt.Sprintf("%s.when[%d]", at, j), "%q is not an engine state: write off, cranking, idle or running", w)
			}
		}
	}
}

func (c *kindChecker) args(at string, e Element, params [][]Param) {
	for _, name := range slices.Sorted(maps.Keys(e.Args)) {
		a := e.Args[name]
		declared := a.Param == "" || slices.ContainsFunc(params, func(list []Param) bool { _, ok := findParam(list, a.Param); return ok })
		if !declared {
			c.add(at+"."+name, "names the parameter %q, which is not declared", a.Param)
		}
	}
}

func (c *kindChecker) contact(at string, e Element, all []Element) {
	if e.Coil != "" && !slices.ContainsFunc(all, func(x Element) bool { return x.Name == e.Coil && x.Type == ElemCoil }) {
		c.add(at+".coil", "there is no coil named %q", e.Coil)
	}
	for i, p := range e.In {
		if !slices.Contains(c.k.Positions, p) {
			c.add(fmt.Sprintf("%s.in[%d]", at, i), "the kind has no position %q", p)
		}
	}
}

// kind checks that a kind of the document can be drawn and counted with.
// Whether it makes sense electrically is not a matter of integrity.
func (c *checker) kind(k *Kind) {
	c.out = append(c.out, CheckKind(k)...)
	if k.Name == "" {
		c.add("name", "a part kind needs a name")
	}
	c.params("params", k.Params)
	c.elements("elements", k.Elements)
	for i, p := range k.Pins {
		c.pinData(i, p)
	}
	for i, r := range k.Roles {
		at := fmt.Sprintf("roles[%d].", i)
		c.params(at+"params", r.Params)
		c.elements(at+"elements", r.Elements)
		c.shapes(at+"shapes", r.Shapes)
	}
	for i, s := range k.Sections {
		at := fmt.Sprintf("sections[%d].", i)
		c.extent(at+"min_width", s.MinWidth)
		c.point(at+"tag", s.Tag)
		c.shapes(at+"shapes", s.Shapes)
	}
}

func (c *checker) params(path string, params []Param) {
	for i, p := range params {
		c.num(fmt.Sprintf("%s[%d].default", path, i), p.Default)
	}
}

func (c *checker) elements(path string, elements []Element) {
	for i, e := range elements {
		for name, a := range e.Args {
			c.number(fmt.Sprintf("%s[%d].args.%s", path, i, name), a.Value)
		}
	}
}

func (c *checker) shapes(path string, shapes []Shape) {
	for i, s := range shapes {
		at := fmt.Sprintf("%s[%d].", path, i)
		c.points(at+"points", s.Points)
		c.extent(at+"radius", s.Radius)
		c.extent(at+"size", s.Size)
		c.number(at+"start", s.Start)
		c.number(at+"sweep", s.Sweep)
	}
}
