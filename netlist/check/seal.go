package check

import (
	"fmt"

	"loomwright/calc/tables"
	"loomwright/schematic"
)

var sealRule = Rule{
	ID:    "seal does not fit wire",
	Title: "Wire seals against the outside diameter of the insulation",
	Help: "A wire seal takes insulation of a range of diameters: a thinner one leaks, a thicker one tears the seal or does not go in. The outside diameter " +
		"is that of the wire's family and size, the largest its standard allows.",
	Source: "ISO 6722-1, outside diameters, partly from memory; SAE J1128 (from memory); range given for the seal",
	run: func(r *run) {
		var nameless []string
		f := Finding{Severity: NotAssessed}
		for _, p := range r.parts() {
			h := p.Housing
			if h == nil || !h.Sealed {
				continue
			}
			low, okLow := h.SealMinMM.Get()
			high, okHigh := h.SealMaxMM.Get()
			if okLow && okHigh {
				r.sealed(p, low, high)
			} else if r.anyWire(p) {
				nameless, f.Items = append(nameless, p.Name), append(f.Items, p.Key())
			}
		}
		if len(nameless) > 0 {
			f.Missing = "the range of the wire seals of " + list(nameless)
			f.Text = fmt.Sprintf("Whether the wires fit their seals is not assessed: the range of the wire seals of %s is missing.", list(nameless))
			r.add(f, "range")
		}
	},
}

// anyWire reports whether a wire ends at a part.
func (r *run) anyWire(p *schematic.Part) bool {
	for _, pin := range r.doc.PinsOf(p) {
		if len(r.wiresAt(schematic.PinRef{Part: p.ID, Pin: pin.Name})) > 0 {
			return true
		}
	}
	return false
}

// sealed holds the wires of a sealed housing against the range of its seals.
func (r *run) sealed(p *schematic.Part, low, high float64) {
	for _, pin := range r.doc.PinsOf(p) {
		ref := schematic.PinRef{Part: p.ID, Pin: pin.Name}
		for _, w := range r.wiresAt(ref) {
			f := Finding{Severity: Warning, Items: []schematic.Key{p.Key(), w.Key()}, Pins: []schematic.PinRef{ref}, Unit: "mm"}
			od, src, ok := outsideMM(w)
			f.Value, f.Source = schematic.Some(od), src.String()
			at := p.Name + "." + ref.Pin
			switch {
			case !ok:
				f.Severity, f.Missing, f.Value, f.Source = NotAssessed, "the outside diameter of "+w.Name, schematic.Num{}, ""
				f.Text = fmt.Sprintf("Whether %s fits the seal at %s is not assessed: its outside diameter is on no list (%s, %s).", w.Name, at, sizeWord(w), insulationWord(w))
			case od < low:
				f.Limit, f.Margin = schematic.Some(low), schematic.Some(od-low)
				f.Text = fmt.Sprintf("%s (%s outside) is too thin for the seal at %s, which takes %s to %s.", w.Name, mm(od), at, mm(low), mm(high))
			case od > high:
				f.Limit, f.Margin = schematic.Some(high), schematic.Some(high-od)
				f.Text = fmt.Sprintf("%s (%s outside) is too thick for the seal at %s, which takes %s to %s.", w.Name, mm(od), at, mm(low), mm(high))
			default:
				continue
			}
			f.Formula = fmt.Sprintf("%s, %s: outside %s", sizeWord(w), insulationWord(w), mm(od))
			if !ok {
				f.Formula = ""
			}
			r.add(f, w.ID.String())
		}
	}
}

// outsideMM returns the outside diameter of a wire by its family.
func outsideMM(w *schematic.Wire) (float64, tables.Source, bool) {
	family, ok := tables.InsulationByCode(w.Insulation)
	if !ok {
		return 0, tables.Source{}, false
	}
	return tables.OutsideDiameterMM(family.Wall, w.Size)
}

func sizeWord(w *schematic.Wire) string {
	if !w.Size.Known() {
		return "no size"
	}
	return w.Size.String()
}

func insulationWord(w *schematic.Wire) string {
	if w.Insulation == "" {
		return "no insulation given"
	}
	return w.Insulation
}
