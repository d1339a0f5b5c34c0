package ui

import (
	"loomwright/calc/unit"
	"loomwright/schematic"
)

// system returns the units that lengths and temperatures are shown in.
func (ed *Editor) system() unit.System {
	if ed.store.Imperial {
		return unit.Imperial
	}
	return unit.SI
}

// shows returns how lengths, temperatures and wire sizes are shown.
func (ed *Editor) shows() unit.Show {
	w := unit.Show{System: ed.system()}
	switch ed.store.Sizes {
	case sizesMM2:
		w.Sizes = unit.Metric
	case sizesAWG:
		w.Sizes = unit.AWG
	}
	return w
}

// quantity prints a number as a field shows it: with all its digits.
func (ed *Editor) quantity(q unit.Quantity, n schematic.Num) string {
	v, ok := n.Get()
	if !ok {
		return ""
	}
	if ed.store.Imperial && (q == unit.Length || q == unit.Temp) {
		return unit.Format(q, v, unit.Imperial)
	}
	return unit.Exact(q, v)
}
