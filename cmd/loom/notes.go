package main

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
)

// notesOn lists what a readable file says in vain: fields, values, limits and
// kinds that nothing reads, mostly slips of spelling.
func notesOn(d *schematic.Doc) []string {
	notes := []string{}
	add := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	for name := range d.Extra() {
		add("file: field %q is kept but means nothing", name)
	}
	for it := range d.All() {
		who := schematic.Describe(it)
		for _, path := range extraFields(reflect.ValueOf(it).Elem(), "") {
			add("%s: field %q is kept but means nothing", who, path)
		}
		switch it := it.(type) {
		case *schematic.Part:
			notes = append(notes, partNotes(d, it)...)
		case *schematic.State:
			notes = append(notes, netlist.StateNotes(d, it)...)
		case *schematic.Kind:
			notes = append(notes, kindNotes(it)...)
		}
	}
	notes = append(notes, idleNotes(d)...)
	limits, choices := map[string]bool{}, map[string][]string{}
	for _, l := range check.Limits() {
		limits[l.Name] = true
	}
	for _, c := range check.Choices() {
		choices[c.Name] = c.Options
	}
	for name, value := range d.Info().Limits {
		if value < 0 {
			add("document settings: the limit %q is %g: nothing can keep a limit below 0", name, value)
		}
		if !limits[name] {
			add("document settings: no rule has a limit %q; run  loom rules  for the list", name)
		}
	}
	for name, choice := range d.Info().Choices {
		if !slices.Contains(choices[name], choice) {
			add("document settings: no rule has a choice %q of %q; run  loom rules  for the list", name, choice)
		}
	}
	slices.SortFunc(notes, schematic.CompareNames)
	return notes
}

// idleNotes names the acceptances that no finding has a use for.
func idleNotes(d *schematic.Doc) []string {
	if d.Len(schematic.TypeAcceptance) == 0 {
		return nil
	}
	n := netlist.Build(d)
	var notes []string
	for _, a := range check.Idle(d, check.Look(n, n.SolveAll()).Findings()) {
		who := "the document"
		if len(a.Items) > 0 {
			it := d.Get(a.Items[0].Key())
			if who = "an item that is gone"; it != nil {
				who = schematic.Describe(it)
			}
		}
		notes = append(notes, fmt.Sprintf("%s for %s: there is no such finding any more; it can be deleted", schematic.Describe(a), who))
	}
	return notes
}

func partNotes(d *schematic.Doc, p *schematic.Part) []string {
	k := d.KindOf(p)
	if k == nil {
		return []string{fmt.Sprintf("part %s: nobody defines the part kind %q, so nothing is computed for it; run  loom kinds  for the list", p.Name, p.Kind)}
	}
	var notes []string
	vain := func(who string, values map[string]float64, has func(string) bool) {
		for _, name := range slices.Sorted(maps.Keys(values)) {
			if !has(name) {
				notes = append(notes, fmt.Sprintf("%s: part kind %q has no value %q; run  loom kinds %s  for the list", who, k.Name, name, k.Name))
			}
		}
	}
	inKind := func(name string) bool {
		_, ok := k.Param(name)
		return ok || slices.Contains(catalog.RuleParams(), name)
	}
	inRoles := func(name string) bool {
		return slices.ContainsFunc(k.Roles, func(r schematic.Role) bool { _, ok := r.Param(name); return ok })
	}
	vain("part "+p.Name, p.Values, func(name string) bool { return inKind(name) || inRoles(name) })
	if !k.OwnPins && len(p.Pins) > 0 {
		return append(notes, fmt.Sprintf("part %s: lists pins, but part kind %q has its own; run  loom kinds %s  for the list", p.Name, k.Name, k.Name))
	}
	for _, pin := range p.Pins {
		role, _ := k.Role(pin.Role)
		vain("part "+p.Name+" pin "+pin.Name, pin.Values, func(name string) bool {
			_, ok := role.Param(name)
			return ok || inKind(name)
		})
	}
	return notes
}

// kindNotes lists what in a kind of the file is taken otherwise than it says,
// or not at all.
func kindNotes(k *schematic.Kind) []string {
	var notes []string
	for _, p := range catalog.Validate(k) {
		if !p.Minor {
			notes = append(notes, fmt.Sprintf("part kind %q: %s", k.Name, p))
		}
	}
	return notes
}

// extraFields finds the paths of all fields in a value that its type does not
// know.
func extraFields(v reflect.Value, at string) []string {
	var paths []string
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return extraFields(v.Elem(), at)
		}
	case reflect.Slice:
		for i := range v.Len() {
			paths = append(paths, extraFields(v.Index(i), fmt.Sprintf("%s[%d]", at, i))...)
		}
	case reflect.Struct:
		if at != "" {
			at += "."
		}
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if !f.IsExported() {
				continue
			}
			if extra, ok := v.Field(i).Interface().(schematic.Extra); ok {
				for _, name := range slices.Sorted(maps.Keys(extra)) {
					paths = append(paths, at+name)
				}
				continue
			}
			paths = append(paths, extraFields(v.Field(i), at+jsonName(f))...)
		}
	}
	return paths
}

func jsonName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name
}
