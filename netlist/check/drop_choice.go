package check

import "loomwright/calc/tables"

// dropChoice is the name in [schematic.Info].Choices of the set of limits for
// lost volts.
const dropChoice = "drop_limits"

// The options of dropChoice.
const (
	dropByKind   = "by kind of load"
	dropPercent  = "3 % and 10 % of nominal"
	dropAircraft = "0.5 V, or 1 V in a 24 V system"
)

func dropChoices() Choice {
	src := tables.Source{}
	for _, k := range []tables.DropKind{tables.LampLine, tables.VitalCircuit, tables.AircraftEquipment} {
		row, _ := tables.DropLimits().Find(func(r tables.DropLimit) bool { return r.Kind == k })
		src = src.And(row.Source)
	}
	return Choice{Name: dropChoice, Title: "limits for lost volts", Options: []string{dropByKind, dropPercent, dropAircraft}, Source: src.String()}
}

// limitInUse returns a limit as the document and its choices have it; false for
// one that its choices leave out.
func (r *run) limitInUse(name string) (float64, tables.Source, bool) {
	for _, row := range dropRows {
		switch name {
		case row.circuitLimit():
			v, src := r.dropLimit(row)
			return v, src, true
		case row.lineLimit():
			return r.dropLineLimit(row)
		}
	}
	v, src := r.limit(name)
	return v, src, true
}

// dropLimit returns what a load may lose in its whole circuit, by the set the
// document chooses; a limit of the document's own goes first.
func (r *run) dropLimit(row dropRow) (float64, tables.Source) {
	kind := tables.DropKind(0)
	switch r.doc.Info().Choices[dropChoice] {
	case dropPercent:
		if kind = tables.OtherCircuit; row.circuit == tables.VitalCircuit {
			kind = tables.VitalCircuit
		}
	case dropAircraft:
		kind = tables.AircraftEquipment
	}
	if _, own := r.doc.Info().Limits[row.circuitLimit()]; kind == 0 || own {
		return r.limit(row.circuitLimit())
	}
	return drop(kind)(r.doc.Info().Volts())
}

// dropLineLimit returns what a load may lose on its feed alone; false where the
// set the document chooses has no limit for that.
func (r *run) dropLineLimit(row dropRow) (float64, tables.Source, bool) {
	_, own := r.doc.Info().Limits[row.lineLimit()]
	choice := r.doc.Info().Choices[dropChoice]
	if row.line == 0 || !own && (choice == dropPercent || choice == dropAircraft) {
		return 0, tables.Source{}, false
	}
	v, src := r.limit(row.lineLimit())
	return v, src, true
}
