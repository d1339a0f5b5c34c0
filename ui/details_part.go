package ui

import (
	"maps"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2/container"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

func (d *details) partPage(p *schematic.Part) page {
	k := d.ed.doc().KindOf(p)
	sub := "Part of unknown kind " + p.Kind
	if k != nil {
		sub = k.Title
	}
	if m := d.ed.doc().Part(p.Mate); m != nil {
		sub += ", plugged into " + m.Name
	}
	shape := "part " + p.ID.String() + " " + p.Kind
	if k != nil && k.OwnPins {
		for _, pin := range p.Pins {
			shape += "\x00" + pin.Name + "\x01" + pin.Role
		}
	}
	if p.Housing != nil {
		shape += " housing"
	}
	for _, at := range d.ed.otherPlaces(p) {
		shape += "\x00" + at.view.Key + at.name
	}
	if d.ed.doc().State(d.ed.study.state) == nil {
		shape += " stateless"
	}
	return page{shape: shape, title: p.Name, sub: sub, build: func() []control { return d.partControls(p.ID, k) }}
}

// partEdits are the ways a page reads and writes one part.
type partEdits struct {
	d  *details
	id schematic.ID
}

func (e partEdits) part() *schematic.Part {
	if p := e.d.ed.doc().Part(e.id); p != nil {
		return p
	}
	return &schematic.Part{}
}

func (e partEdits) set(what string, change func(*schematic.Part)) error {
	return e.d.ed.try("set "+what+" of "+e.part().Name, func(tx *edit.Tx) error { return edit.SetPart(tx, e.id, change) })
}

func (e partEdits) text(name, what string, at func(*schematic.Part) *string) *field {
	return newTextField(name, func() string { return *at(e.part()) }, func(s string) error {
		return e.set(what, func(p *schematic.Part) { *at(p) = strings.TrimSpace(s) })
	})
}

// partControls are the fields of a part of a kind.
func (d *details) partControls(id schematic.ID, k *schematic.Kind) []control {
	e := partEdits{d, id}
	cs := []control{
		e.text("Designation", "designation", func(p *schematic.Part) *string { return &p.Name }),
		e.text("What it does", "purpose", func(p *schematic.Part) *string { return &p.Label }).hint("e.g. radiator fan, left"),
		d.lockTick(schematic.Key{Type: schematic.TypePart, ID: id}),
	}
	cs = append(cs, d.placeButtons(e.part())...)
	if k != nil && k.Help != "" {
		cs = append(cs, remark(k.Help))
	}
	if k != nil && len(k.Params) > 0 {
		cs = append(cs, heading("Values"))
		for _, prm := range k.Params {
			cs = append(cs, d.paramField(prm,
				func() (float64, bool) { v, ok := e.part().Values[prm.Name]; return v, ok },
				func(n schematic.Num) error {
					return e.set(strings.ToLower(prm.Title), func(p *schematic.Part) { p.Values = withValue(p.Values, prm.Name, n) })
				}))
		}
	}
	cs = append(cs, heading("In this state"))
	if c := d.positionChoice(e, k); c != nil {
		cs = append(cs, c)
	}
	cs = append(cs, newFact("Current", func() string { return d.partState(e.part()) }))
	if k != nil && k.OwnPins {
		cs = append(cs, d.pinControls(e, k)...)
	} else {
		cs = append(cs, heading("Pins"))
		for _, pin := range d.ed.doc().PinsOf(e.part()) {
			cs = append(cs, newFact(pinLabel(pin), func() string { return d.pinWires(id, pin.Name) }))
		}
	}
	if e.part().Housing != nil {
		cs = append(cs, housingControls(e)...)
	} else if k != nil && len(k.Sections) > 0 && k.Sections[0].Form == "rows" {
		cs = append(cs, heading("Housing"), plain{container.NewHBox(newButton(d.ed.tips, "Describe the housing", "", "Write down which housing it is and what its contacts are", func() {
			d.ed.report(e.set("housing", func(p *schematic.Part) { p.Housing = &schematic.Housing{} }))
		}))})
	}
	return append(cs,
		heading("Making it"),
		e.text("Part number", "part number", func(p *schematic.Part) *string { return &p.Number }),
		d.loomChoice(func() schematic.ID { return e.part().Loom }, func(l schematic.ID) error {
			return e.set("loom", func(p *schematic.Part) { p.Loom = l })
		}),
		d.buildChoice(func() schematic.Build { return e.part().Build }, func(b schematic.Build) error {
			return e.set("build step", func(p *schematic.Part) { p.Build = b })
		}),
		newLongField("Notes", func() string { return e.part().Notes }, func(s string) error {
			return e.set("notes", func(p *schematic.Part) { p.Notes = s })
		}),
		d.linksField(func() []schematic.Link { return e.part().Links }, func(l []schematic.Link) error {
			return e.set("links", func(p *schematic.Part) { p.Links = l })
		}),
	)
}

// withValue returns the values with one set, or removed when unknown.
func withValue(values map[string]float64, name string, n schematic.Num) map[string]float64 {
	c := maps.Clone(values)
	if v, ok := n.Get(); ok {
		if c == nil {
			c = map[string]float64{}
		}
		c[name] = v
	} else {
		delete(c, name)
	}
	return c
}

func pinLabel(p schematic.Pin) string {
	if p.Title == "" {
		return "Pin " + p.Name
	}
	return p.Name + " " + p.Title
}

// pinWires names the wires at a pin.
func (d *details) pinWires(part schematic.ID, pin string) string {
	var names []string
	for _, w := range d.ed.doc().WiresAt(schematic.PinRef{Part: part, Pin: pin}) {
		s := w.Name
		if !w.Color.IsZero() {
			s += " " + w.Color.String()
		}
		names = append(names, s)
	}
	if len(names) == 0 {
		return "no wire"
	}
	slices.SortFunc(names, schematic.CompareNames)
	return strings.Join(names, ", ")
}

// partState says what flows through the pieces of a part in the state looked at.
func (d *details) partState(p *schematic.Part) string {
	sol := d.ed.study.solution()
	if sol == nil {
		return "being worked out"
	}
	if sol.Err != nil {
		return "this state could not be computed"
	}
	var lines []string
	idle := 0
	for _, i := range sol.Netlist.PartBranches(p.ID) {
		br := &sol.Netlist.Branches[i]
		amp := math.Abs(sol.Amp[i])
		if math.IsNaN(amp) || br.Element.Type == schematic.ElemOpen || br.Element.Type == schematic.ElemJoint {
			continue
		}
		s := strings.TrimPrefix(br.Name(), p.Name)
		s = strings.TrimSpace(s)
		if s != "" {
			s += ": "
		}
		if amp < leastShown {
			idle++
			continue
		}
		s += unit.Format(unit.Amp, amp, unit.SI)
		if v, ok := sol.Across(i); ok && math.Abs(v) >= leastShownVolt {
			s += ", " + unit.Format(unit.Volt, math.Abs(v), unit.SI)
		}
		lines = append(lines, s)
	}
	switch {
	case len(lines) == 0 && idle == 0:
		return "only passes current on"
	case len(lines) == 0:
		return "none"
	case idle > 0:
		lines = append(lines, "none in the rest")
	}
	const most = 12
	if len(lines) > most {
		lines = append(lines[:most], "…")
	}
	return strings.Join(lines, "\n")
}

// housingControls edit the connector body at a part's pins.
func housingControls(e partEdits) []control {
	text := func(name, what string, at func(*schematic.Housing) *string) *field {
		return newField(name,
			func() string {
				if h := e.part().Housing; h != nil {
					return *at(h)
				}
				return ""
			},
			func(s string) error {
				return e.set(what, func(p *schematic.Part) {
					if p.Housing == nil {
						p.Housing = &schematic.Housing{}
					}
					*at(p.Housing) = strings.TrimSpace(s)
				})
			})
	}
	num := func(name, what string, q unit.Quantity, at func(*schematic.Housing) *schematic.Num) *field {
		return e.d.numField(name, q,
			func() schematic.Num {
				if h := e.part().Housing; h != nil {
					return *at(h)
				}
				return schematic.Num{}
			},
			func(n schematic.Num) error {
				return e.set(what, func(p *schematic.Part) {
					if p.Housing != nil {
						*at(p.Housing) = n
					}
				})
			})
	}
	const noGender = "not given"
	return []control{
		heading("Housing"),
		text("Type", "housing type", func(h *schematic.Housing) *string { return &h.Type }).hint("as you order it"),
		e.d.newChoice("Contacts", func() []string { return []string{noGender, "pin", "socket"} },
			func() string {
				if h := e.part().Housing; h != nil && h.Gender != "" {
					return h.Gender
				}
				return noGender
			},
			func(s string) {
				if s == noGender {
					s = ""
				}
				e.d.ed.report(e.set("contact gender", func(p *schematic.Part) {
					if p.Housing != nil {
						p.Housing.Gender = s
					}
				}))
			}),
		text("Terminal", "terminal", func(h *schematic.Housing) *string { return &h.Terminal }),
		text("Wire seal", "wire seal", func(h *schematic.Housing) *string { return &h.Seal }),
		text("Cavity plug", "cavity plug", func(h *schematic.Housing) *string { return &h.Plug }).hint("closes unused cavities"),
		num("Seal takes from", "seal range", unit.Length, func(h *schematic.Housing) *schematic.Num { return &h.SealMinMM }).hint("thinnest insulation"),
		num("Seal takes to", "seal range", unit.Length, func(h *schematic.Housing) *schematic.Num { return &h.SealMaxMM }).hint("thickest insulation"),
		num("Smallest wire", "smallest wire of a terminal", unit.Area, func(h *schematic.Housing) *schematic.Num { return &h.WireMinMM2 }).hint("a terminal takes"),
		num("Largest wire", "largest wire of a terminal", unit.Area, func(h *schematic.Housing) *schematic.Num { return &h.WireMaxMM2 }).hint("a terminal takes"),
		num("Contact width", "contact width", unit.Length, func(h *schematic.Housing) *schematic.Num { return &h.ContactMM }),
		num("Rated current", "rated current", unit.Amp, func(h *schematic.Housing) *schematic.Num { return &h.RatedAmp }).hint("of one contact"),
		e.d.newTick("Sealed", func() bool { h := e.part().Housing; return h != nil && h.Sealed }, func(on bool) {
			e.d.ed.report(e.set("sealing", func(p *schematic.Part) {
				if p.Housing != nil {
					p.Housing.Sealed = on
				}
			}))
		}),
	}
}
