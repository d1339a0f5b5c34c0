package catalog

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"loomwright/schematic"
)

func (v *validator) roles() {
	seen := map[string]bool{}
	for i, r := range v.k.Roles {
		at := fmt.Sprintf("roles[%d]", i)
		v.unique(at+".name", "role", r.Name, seen)
		if strings.TrimSpace(r.Title) == "" {
			v.add(at+".title", "role %q needs a title", r.Name)
		}
		v.oneOf(at+".signal", r.Signal, signals)
		v.params(at+".params", r.Params)
		v.shapes(at+".shapes", r.Shapes)
		if !v.k.OwnPins && (len(r.Elements) > 0 || len(r.Params) > 0) {
			v.add(at, "role %q: fixed pins share the elements of the kind, their roles have none", r.Name)
		}
		names := map[string]bool{}
		// A role's parameters are its own affair; the kind's may serve it too.
		outer := v.used
		v.used = set(RuleParams()...)
		for j, e := range r.Elements {
			path := fmt.Sprintf("%s.elements[%d]", at, j)
			v.unique(path+".name", "element", e.Name, names)
			v.element(path, e, r.Elements, set("@"), r.Params, v.k.Params)
		}
		v.unused(at+".params", r.Params)
		for name := range v.used {
			if _, own := r.Param(name); !own {
				outer[name] = true
			}
		}
		v.used = outer
	}
}

func (v *validator) elements() {
	names := map[string]bool{}
	pins := v.pins
	if v.k.OwnPins {
		pins = nil // a part may bring any pins: only inner nodes are sure
	}
	for i, e := range v.k.Elements {
		path := fmt.Sprintf("elements[%d]", i)
		v.unique(path+".name", "element", e.Name, names)
		v.element(path, e, v.k.Elements, pins, v.k.Params)
	}
}

// element checks one element; all are those it may name as its coil, params the
// lists its arguments may name a parameter of.
func (v *validator) element(at string, e schematic.Element, all []schematic.Element, pins map[string]bool, params ...[]schematic.Param) {
	spec, known := argSpecs[e.Type]
	if !known {
		v.add(at+".type", "%q is not an element type: write one of %v", e.Type, schematic.ElementTypes())
		return
	}
	v.node(at+".a", e.A, pins)
	v.node(at+".b", e.B, pins)
	if e.A == e.B {
		v.add(at+".b", "both ends are at %q", e.B)
	}
	if e.Type == schematic.ElemRegulator {
		v.node(at+".feed", e.Feed, pins)
	} else if e.Feed != "" {
		v.add(at+".feed", "only a regulator is fed from a node")
	}
	v.args(at+".args", e, spec, params)
	v.contact(at, e, all)
	v.oneOf(at+".load", e.Load, loads)
	if spec.load && e.Load == "" {
		v.add(at+".load", "%s is a load: write %s", e.Type, choices(loads))
	}
	for i, w := range e.When {
		if !engines[string(w)] {
			v.add(fmt.Sprintf("%s.when[%d]", at, i), "%q is not an engine state: write %s", w, choices(engines))
		}
	}
}

func (v *validator) node(path, name string, pins map[string]bool) {
	switch {
	case pins[name], strings.HasPrefix(name, "#") && len(name) > 1:
	case pins["@"]:
		v.add(path, "%q is neither @, the pin, nor an inner node such as #rail", name)
	default:
		v.add(path, "%q is neither a pin nor an inner node such as #rail", name)
	}
}

func (v *validator) args(at string, e schematic.Element, spec argSpec, params [][]schematic.Param) {
	for _, name := range spec.need {
		if _, ok := e.Args[name]; !ok {
			v.add(at, "%s needs %s", e.Type, name)
		}
	}
	given := make([]string, 0, len(e.Args))
	for name := range e.Args {
		given = append(given, name)
	}
	sort.Strings(given)
	for _, name := range given {
		path := at + "." + name
		if !slices.Contains(spec.need, name) && !slices.Contains(spec.may, name) {
			v.add(path, "%s takes no %s", e.Type, name)
			continue
		}
		a := e.Args[name]
		if a.Param == "" {
			if a.Value < 0 && argUnit[name] != "degC" {
				v.add(path, "%g is negative", a.Value)
			}
			continue
		}
		v.used[a.Param] = true
		p, ok := find(params, a.Param)
		switch {
		case !ok:
			v.add(path, "names the parameter %q, which is not declared", a.Param)
		case p.Unit != argUnit[name]:
			v.add(path, "is in %s, but parameter %q is in %q", argUnit[name], p.Name, p.Unit)
		case p.Default.Or(0) < 0 && p.Unit != "degC":
			v.add(path, "the default of %q is negative", p.Name)
		}
	}
}

func find(lists [][]schematic.Param, name string) (schematic.Param, bool) {
	for _, list := range lists {
		for _, p := range list {
			if p.Name == name {
				return p, true
			}
		}
	}
	return schematic.Param{}, false
}

func (v *validator) contact(at string, e schematic.Element, all []schematic.Element) {
	if e.Type != schematic.ElemContact {
		if e.Coil != "" || e.Break || len(e.In) > 0 {
			v.add(at, "only a contact has a coil, break or positions")
		}
		return
	}
	if (e.Coil != "") == (len(e.In) > 0) {
		v.add(at, "a contact is moved either by a coil or by switch positions")
	}
	if e.Break && e.Coil == "" {
		v.add(at+".break", "only a contact with a coil can break")
	}
	if e.Coil != "" && !slices.ContainsFunc(all, func(c schematic.Element) bool {
		return c.Name == e.Coil && c.Type == schematic.ElemCoil
	}) {
		v.add(at+".coil", "there is no coil named %q", e.Coil)
	}
	for i, p := range e.In {
		if !slices.Contains(v.k.Positions, p) {
			v.add(fmt.Sprintf("%s.in[%d]", at, i), "the kind has no position %q", p)
		}
	}
}
