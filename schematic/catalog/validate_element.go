package catalog

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"loomwright/schematic"
)

func (v *validator) roles() {
	for i, r := range v.k.Roles {
		at := fmt.Sprintf("roles[%d]", i)
		if strings.TrimSpace(r.Title) == "" {
			v.minor(at+".title", "role %q needs a title", r.Name)
		}
		v.oneOf(at+".signal", r.Signal, signals)
		v.params(at+".params", r.Params)
		v.shapes(at+".shapes", r.Shapes)
		if !v.k.OwnPins && (len(r.Elements) > 0 || len(r.Params) > 0) {
			v.add(at, "role %q: fixed pins share the elements of the kind, their roles have none", r.Name)
		}
		// A role's parameters are its own affair; the kind's may serve it too.
		outer := v.used
		v.used = set(RuleParams()...)
		for j, e := range r.Elements {
			v.element(fmt.Sprintf("%s.elements[%d]", at, j), e, r.Params, v.k.Params)
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
	for i, e := range v.k.Elements {
		v.element(fmt.Sprintf("elements[%d]", i), e, v.k.Params)
	}
}

// element checks one element; params are the lists its arguments may name a
// parameter of.
func (v *validator) element(at string, e schematic.Element, params ...[]schematic.Param) {
	spec, known := argSpecs[e.Type]
	if !known {
		return // said by [schematic.CheckKind]
	}
	if e.A == e.B {
		v.add(at+".b", "both ends are at %q", e.B)
	}
	if e.Type != schematic.ElemRegulator && e.Feed != "" {
		v.add(at+".feed", "only a regulator is fed from a node")
	}
	v.args(at+".args", e, spec, params)
	v.contact(at, e)
	v.oneOf(at+".load", e.Load, loads)
	if spec.load && e.Load == "" {
		v.minor(at+".load", "%s is a load: write %s", e.Type, choices(loads))
	}
}

func (v *validator) args(at string, e schematic.Element, spec argSpec, params [][]schematic.Param) {
	for _, name := range spec.need {
		if _, ok := e.Args[name]; !ok {
			v.add(at, "%s needs %s", e.Type, name)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(e.Args)) {
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
		case !ok: // said by schematic.CheckKind
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

func (v *validator) contact(at string, e schematic.Element) {
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
}
