package check

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

var ratingRule = Rule{
	ID:    "contact or driver overloaded",
	Title: "Current through contacts, drivers and terminals against their rating",
	Help: "Switch and relay contacts, drivers of control units, diodes and connector contacts may carry what they are rated for. " +
		"For a connector contact without a rating the usual current of its width is taken. Starting currents of lamps and motors are not part of it.",
	Source: "rating given for the part",
	run: func(r *run) {
		v := vague{r: r}
		for i := range r.n.Branches {
			if br := &r.n.Branches[i]; br.Role == netlist.RoleElement {
				r.rating(i, br, &v)
			}
		}
		v.tell("they are rated for it")
		r.unratedDrivers()
		for _, p := range r.parts() {
			r.terminals(p)
		}
		for i := range r.n.Branches {
			r.resistorWatt(i)
		}
	},
}

// rating looks at a contact, a driver or a diode.
func (r *run) rating(i int, br *netlist.Branch, v *vague) {
	var rated schematic.Num
	switch br.Element.Type {
	case schematic.ElemContact, schematic.ElemOutput:
		rated = br.Value("limit_amp")
	case schematic.ElemDiode:
		if isPartOfLoad(br) {
			return
		}
		rated = br.Kind.ParamValue(br.Part, br.Pin, "rated_amp")
	default:
		return
	}
	at, amp := r.worst(i, anyState)
	if at == nil {
		return
	}
	f := of(at, Finding{Items: []schematic.Key{br.Key()}, Pins: pinsOf(br), Unit: "A", Value: schematic.Some(amp)})
	limit, ok := rated.Get()
	floor, _ := r.limit(limitLoaded)
	switch {
	case !ok && br.Element.Type == schematic.ElemOutput:
		return // said for the whole unit
	case !ok && amp >= floor:
		f.Severity, f.Missing = NotAssessed, "the rating of "+br.Name()
		f.Text = fmt.Sprintf("%s carries %s; its rating is missing.", br.Name(), amps(amp))
	case ok && amp > limit:
		f.Severity, f.Limit, f.Margin = Error, rated, schematic.Some(limit-amp)
		f.Text = fmt.Sprintf("%s carries %s but is rated for %s.", br.Name(), amps(amp), amps(limit))
		f.Formula = fmt.Sprintf("%s > %s", amps(amp), amps(limit))
	default:
		if ok {
			v.keeps(i, limit)
		}
		return
	}
	r.add(f, br.Element.Name)
}

// terminals looks at the contacts of a connector, or of any part with a housing.
func (r *run) terminals(p *schematic.Part) {
	k := r.doc.KindOf(p)
	if k == nil {
		return
	}
	if p.Housing == nil && !isConnector(k) {
		return
	}
	for _, pin := range r.doc.PinsOf(p) {
		ref := schematic.PinRef{Part: p.ID, Pin: pin.Name}
		var at *netlist.Solution
		most := 0.0
		for _, s := range r.usable() {
			if a := math.Abs(s.PinAmp(ref)); a > most {
				at, most = s, a
			}
		}
		if at != nil && most > quiet {
			r.terminal(at, k, p, pin, ref, most)
		}
	}
}

func (r *run) terminal(at *netlist.Solution, k *schematic.Kind, p *schematic.Part, pin schematic.Pin, ref schematic.PinRef, amp float64) {
	f := of(at, Finding{Items: []schematic.Key{p.Key()}, Pins: []schematic.PinRef{ref}, Unit: "A", Value: schematic.Some(amp)})
	rated, src := contactRating(k, p, pin)
	limit, ok := rated.Get()
	floor, _ := r.limit(limitLoaded)
	name := p.Name + "." + pin.Name
	switch {
	case !ok && amp >= floor:
		f.Severity, f.Missing = NotAssessed, "the rating of the contacts of "+p.Name
		f.Text = fmt.Sprintf("%s carries %s; the rating of its contact is missing.", name, amps(amp))
	case ok && amp > limit:
		f.Severity, f.Limit, f.Margin, f.Source = Error, rated, schematic.Some(limit-amp), src
		f.Text = fmt.Sprintf("%s carries %s, its contact bears %s.", name, amps(amp), amps(limit))
		f.Formula = fmt.Sprintf("%s > %s", amps(amp), amps(limit))
	default:
		return
	}
	r.add(f)
}

// isConnector reports whether a kind's rating is that of its contacts.
func isConnector(k *schematic.Kind) bool {
	_, ok := k.Param("contact_ohm")
	return ok && k.OwnPins
}

// contactRating returns what one contact of a connector may carry.
func contactRating(k *schematic.Kind, p *schematic.Part, pin schematic.Pin) (schematic.Num, string) {
	const given = "rating given for the part"
	if isConnector(k) {
		if v := k.ParamValue(p, &pin, "rated_amp"); v.Known() {
			return v, given
		}
	}
	if p.Housing == nil {
		return schematic.Num{}, ""
	}
	if p.Housing.RatedAmp.Known() {
		return p.Housing.RatedAmp, given
	}
	width, ok := p.Housing.ContactMM.Get()
	list := tables.Contacts()
	row, found := list.Find(func(c tables.ContactRow) bool { return c.TabMM == width })
	if !ok || !found {
		return schematic.Num{}, ""
	}
	return schematic.Some(row.MaxA), list.Source.String()
}

// resistorWatt looks at the heat of a resistor with a rating.
func (r *run) resistorWatt(i int) {
	br := &r.n.Branches[i]
	if br.Role != netlist.RoleElement || br.Element.Type != schematic.ElemResistor {
		return
	}
	if _, ok := br.Kind.Param("rated_watt"); !ok {
		return
	}
	at, amp := r.worst(i, anyState)
	if at == nil {
		return
	}
	v, _ := at.Across(i)
	watt := math.Abs(v) * amp
	f := of(at, Finding{Items: []schematic.Key{br.Key()}, Unit: "W", Value: schematic.Some(watt)})
	rated := br.Kind.ParamValue(br.Part, br.Pin, "rated_watt")
	limit, ok := rated.Get()
	switch {
	case !ok:
		f.Severity, f.Missing = NotAssessed, "the rated power of "+br.Name()
		f.Text = fmt.Sprintf("%s turns %s into heat; its rated power is missing.", br.Name(), watts(watt))
	case watt > limit:
		f.Severity, f.Limit, f.Margin = Error, rated, schematic.Some(limit-watt)
		f.Text = fmt.Sprintf("%s turns %s into heat but is rated for %s.", br.Name(), watts(watt), watts(limit))
		f.Formula = fmt.Sprintf("%s · %s = %s", volts(math.Abs(v)), amps(amp), watts(watt))
	default:
		return
	}
	r.add(f, "watt")
}
