package check

import (
	"loomwright/calc/tables"
	"loomwright/schematic"
)

// Limit is a number the rules hold values against. A document overrides it
// under its name in [schematic.Info].Limits.
type Limit struct {
	Name    string // key in the document
	Title   string
	Unit    string // "V", "A", "ohm", "mm", "ratio", …
	Default schematic.Num
	Source  string
	value   func(volts float64) (float64, tables.Source, bool)
}

// Choice is a named choice of the rules. A document overrides it under its
// name in [schematic.Info].Choices.
type Choice struct {
	Name    string
	Title   string
	Options []string // the first is the default
	Source  string
}

// Limits lists every limit with its default in a 12 V system.
func Limits() []Limit {
	out := make([]Limit, len(limits))
	for i, l := range limits {
		v, src, ok := l.value(12)
		l.Source = src.String()
		if ok {
			l.Default = schematic.Some(v)
		}
		out[i] = l
	}
	return out
}

// Choices lists every choice.
func Choices() []Choice {
	return []Choice{{
		Name: bundleChoice, Title: "factors for wires lying together",
		Options: []string{"33 CFR 183.425", "ISO 13297", "IEC 60364-5-52"},
		Source:  tables.BundleCFR183.Source().And(tables.BundleISO13297.Source()).And(tables.BundleIEC60364.Source()).String(),
	}}
}

const bundleChoice = "bundle_factors"

func bundleSet(i *schematic.Info) tables.BundleSet {
	switch i.Choices[bundleChoice] {
	case "ISO 13297":
		return tables.BundleISO13297
	case "IEC 60364-5-52":
		return tables.BundleIEC60364
	}
	return tables.BundleCFR183
}

// The names of the limits.
const (
	limitLoadedAmp = "loaded_amp"
	limitCrankS    = "crank_s"
)

var limits = []Limit{
	{Name: limitLoadedAmp, Title: "current from which a wire counts as loaded in a bundle", Unit: "A",
		value: fixed(0.5, practice("less heats thin wires by under 3 % of what they bear"))},
	{Name: limitCrankS, Title: "longest time the starter turns in one go", Unit: "s",
		value: fixed(30, tables.Source{Title: "cold cranking test, SAE J537", Place: "30 s, seen second-hand"})},
}

func fixed(v float64, src tables.Source) func(float64) (float64, tables.Source, bool) {
	return func(float64) (float64, tables.Source, bool) { return v, src, true }
}

func practice(what string) tables.Source {
	return tables.Source{Title: "common practice, no source", Place: what, FromMemory: true}
}

// limit returns a limit as this document has it; false when there is none for
// its system voltage.
func (r *run) limit(name string) (float64, tables.Source, bool) {
	if v, ok := r.doc.Info().Limits[name]; ok {
		return v, tables.Source{Title: "limit " + name + " of this document"}, true
	}
	for i := range limits {
		if limits[i].Name == name {
			return limits[i].value(r.doc.Info().Volts())
		}
	}
	panic("check: no limit is called " + name)
}
