package ui

import (
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc/unit"
	"loomwright/netlist/table"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

func (d *details) wirePage(w *schematic.Wire) page {
	return page{
		shape: "wire " + w.ID.String(),
		title: w.Name,
		sub:   "Wire from " + d.endText(w.A) + " to " + d.endText(w.B),
		build: func() []control { return d.wireControls(w.ID) },
	}
}

// endText names a wire's end as people say it.
func (d *details) endText(e schematic.End) string {
	if e.Loose() {
		return "a loose end"
	}
	doc := d.ed.doc()
	p := doc.Part(e.Part)
	if p == nil {
		return "nothing"
	}
	s := p.Name
	if len(doc.PinsOf(p)) > 1 {
		s += " pin " + e.Pin
	}
	return s
}

// wireControls are the fields of a wire.
func (d *details) wireControls(id schematic.ID) []control {
	wire := func() *schematic.Wire {
		if w := d.ed.doc().Wire(id); w != nil {
			return w
		}
		return &schematic.Wire{}
	}
	set := func(what string, change func(*schematic.Wire)) error {
		return d.ed.try("set "+what+" of "+wire().Name, func(tx *edit.Tx) error { return edit.SetWire(tx, id, change) })
	}
	text := func(name, what string, at func(*schematic.Wire) *string) *field {
		return newTextField(name, func() string { return *at(wire()) }, func(s string) error {
			return set(what, func(w *schematic.Wire) { *at(w) = strings.TrimSpace(s) })
		})
	}
	num := func(name, what string, q unit.Quantity, at func(*schematic.Wire) *schematic.Num) *field {
		return d.numField(name, q, func() schematic.Num { return *at(wire()) }, func(n schematic.Num) error {
			return set(what, func(w *schematic.Wire) { *at(w) = n })
		})
	}
	end := func(title string, at func(*schematic.Wire) *schematic.End) []control {
		return []control{
			heading(title),
			newFact("Is at", func() string { return d.endText(*at(wire())) }),
			text("Terminal", "terminal", func(w *schematic.Wire) *string { return &at(w).Terminal }),
			text("Seal", "seal", func(w *schematic.Wire) *string { return &at(w).Seal }),
			num("Joint", "joint resistance", unit.Ohm, func(w *schematic.Wire) *schematic.Num { return &at(w).JointOhm }).hint("by wire size"),
		}
	}
	cs := []control{
		text("Designation", "designation", func(w *schematic.Wire) *string { return &w.Name }),
		text("Circuit", "circuit", func(w *schematic.Wire) *string { return &w.Circuit }).hint("what the wire is for"),
		heading("Conductor"),
		newField("Size", func() string {
			if s := wire().Size; s.Known() {
				return s.String()
			}
			return ""
		}, func(s string) error {
			size, err := parseSize(s)
			if err != nil {
				return err
			}
			return set("size", func(w *schematic.Wire) { w.Size = size })
		}).hint("mm², AWG or SAE"),
		d.colorField(func() schematic.Color { return wire().Color }, func(c schematic.Color) error {
			return set("colour", func(w *schematic.Wire) { w.Color = c })
		}),
		d.insulationField(func() string { return wire().Insulation }, func(s string) error {
			return set("insulation", func(w *schematic.Wire) { w.Insulation = s })
		}),
		num("Temperature class", "temperature class", unit.Temp, func(w *schematic.Wire) *schematic.Num { return &w.TempC }).hint("by insulation"),
		d.metalChoice(func() schematic.Metal { return wire().Metal }, func(m schematic.Metal) {
			d.ed.report(set("metal", func(w *schematic.Wire) { w.Metal = m }))
		}),
		heading("Length"),
		num("Measured", "length", unit.Length, func(w *schematic.Wire) *schematic.Num { return &w.LengthMM }).hint("not measured"),
		num("Slack", "slack", unit.Length, func(w *schematic.Wire) *schematic.Num { return &w.SlackMM }).hint("none"),
		d.loomChoice(func() schematic.ID { return wire().Loom }, func(l schematic.ID) error {
			return set("loom", func(w *schematic.Wire) { w.Loom = l })
		}),
		newFact("Route", func() string { return d.routeText(wire()) }),
		heading("In this state"),
		newFact("Current", func() string { return d.wireState(wire()) }),
		heading("Twist and screen"),
		newFact("Bound with", func() string { return d.groupText(wire()) }),
		d.newTick("Grounds the screen it lies under", func() bool {
			g := d.ed.doc().Group(wire().Screen)
			return g != nil && g.Drain == id
		}, func(on bool) {
			drain := id
			if !on {
				drain = schematic.ID{}
			}
			d.ed.report(d.ed.try("ground the screen with "+wire().Name, func(tx *edit.Tx) error { return edit.SetDrain(tx, wire().Screen, drain) }))
		}),
	}
	cs = append(cs, end("End A", func(w *schematic.Wire) *schematic.End { return &w.A })...)
	cs = append(cs, end("End B", func(w *schematic.Wire) *schematic.End { return &w.B })...)
	return append(cs,
		heading("Making it"),
		d.buildChoice(func() schematic.Build { return wire().Build }, func(b schematic.Build) error {
			return set("build step", func(w *schematic.Wire) { w.Build = b })
		}),
		newLongField("Notes", func() string { return wire().Notes }, func(s string) error {
			return set("notes", func(w *schematic.Wire) { w.Notes = s })
		}),
		d.linksField(func() []schematic.Link { return wire().Links }, func(l []schematic.Link) error {
			return set("links", func(w *schematic.Wire) { w.Links = l })
		}),
		d.lockTick(schematic.Key{Type: schematic.TypeWire, ID: id}),
	)
}

// parseSize reads a conductor size; empty is unknown.
func parseSize(s string) (unit.Size, error) {
	if strings.TrimSpace(s) == "" {
		return unit.Size{}, nil
	}
	return unit.ParseSize(s)
}

func (d *details) metalChoice(get func() schematic.Metal, set func(schematic.Metal)) *choice {
	return d.newChoice("Metal",
		func() []string {
			return []string{string(schematic.Copper), string(schematic.Tinned), string(schematic.Aluminium)}
		},
		func() string {
			if m := get(); m != "" {
				return string(m)
			}
			return string(schematic.Copper)
		},
		func(s string) {
			m := schematic.Metal(s)
			if m == schematic.Copper {
				m = ""
			}
			set(m)
		})
}

// routeText says which segments of its loom a wire runs through.
func (d *details) routeText(w *schematic.Wire) string {
	l := d.ed.doc().Loom(w.Loom)
	if l == nil || len(w.Route) == 0 {
		return "not routed"
	}
	return table.RouteText(l, w)
}

// groupText names what a wire is twisted or screened with.
func (d *details) groupText(w *schematic.Wire) string {
	var parts []string
	for _, g := range []struct {
		id   schematic.ID
		word string
	}{{w.Twist, "twisted in "}, {w.Screen, "under screen "}} {
		if grp := d.ed.doc().Group(g.id); grp != nil {
			parts = append(parts, g.word+grp.Name)
		}
	}
	if len(parts) == 0 {
		return "nothing"
	}
	return strings.Join(parts, ", ")
}

// wireState says what a wire carries and loses in the state looked at.
func (d *details) wireState(w *schematic.Wire) string {
	sol := d.ed.study.solution()
	if sol == nil {
		return "being worked out"
	}
	if sol.Err != nil {
		return "this state could not be computed"
	}
	amp, ok := sol.WireAmp(w.ID)
	if !ok || math.IsNaN(amp) {
		return "not known"
	}
	s := unit.Format(unit.Amp, math.Abs(amp), unit.SI)
	if math.Abs(amp) < leastShown {
		s = "none"
	}
	i := sol.Netlist.WireBranch(w.ID)
	if v, ok := sol.Across(i); ok && math.Abs(amp) >= leastShown {
		s += ", " + unit.Format(unit.Volt, math.Abs(v), unit.SI) + " lost"
		if !sol.Netlist.Branches[i].OhmKnown {
			s += " (resistance assumed: " + strings.Join(sol.Netlist.Branches[i].Missing, ", ") + " missing)"
		}
	}
	return s
}

// insulationField is a text field with the known families at hand.
func (d *details) insulationField(get func() string, set func(string) error) control {
	f := newField("Insulation", get, func(s string) error { return set(strings.TrimSpace(s)) }).hint("FLRY, TXL …")
	pick := widget.NewButtonWithIcon("", theme.MenuDropDownIcon(), nil)
	pick.Importance = widget.LowImportance
	pick.OnTapped = func() {
		var items []*fyne.MenuItem
		for _, name := range insulationNames() {
			items = append(items, fyne.NewMenuItem(name, func() { f.commit(name); f.load() }))
		}
		d.ed.popUpAt(pick, items)
	}
	f.box.Objects[0] = row("Insulation", container.NewBorder(nil, nil, nil, pick, f.input))
	return f
}

// colorField edits a wire colour as its code, with the colour beside it and a
// chart to choose from.
type colorField struct {
	*field
	base, tracer *canvas.Rectangle
	get          func() schematic.Color
}

func (d *details) colorField(get func() schematic.Color, set func(schematic.Color) error) control {
	c := &colorField{get: get, base: canvas.NewRectangle(color.Transparent), tracer: canvas.NewRectangle(nil)}
	c.field = newField("Colour",
		func() string { return get().String() },
		func(s string) error {
			v, err := schematic.ParseColor(s)
			if err != nil {
				return err
			}
			return set(v)
		}).hint("BK, RD, BU/WH")
	c.base.StrokeWidth = 1
	swatch := container.New(swatchLayout{}, c.base, c.tracer)
	pick := newSwatchButton(swatch, func(o fyne.CanvasObject) {
		d.ed.popUpColors(o, get(), func(v schematic.Color) {
			c.commit(v.String())
			c.load()
		})
	})
	c.box.Objects[0] = row("Colour", container.NewBorder(nil, nil, nil, pick, c.input))
	c.load()
	return c
}

func (c *colorField) load() {
	c.field.load()
	now := c.get()
	c.base.StrokeColor = theme.Color(theme.ColorNameInputBorder)
	c.base.FillColor = wireColor(now.Base)
	c.tracer.FillColor = wireColor(now.Tracer)
	c.base.Refresh()
	c.tracer.Refresh()
}

// swatchLayout puts the tracer as a stripe along the middle of the base.
type swatchLayout struct{}

func (swatchLayout) Layout(objs []fyne.CanvasObject, s fyne.Size) {
	objs[0].Move(fyne.NewPos(2, 5))
	objs[0].Resize(fyne.NewSize(s.Width-4, s.Height-10))
	objs[1].Move(fyne.NewPos(3, s.Height/2-2))
	objs[1].Resize(fyne.NewSize(s.Width-6, 4))
}

func (swatchLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(40, 26) }

// swatchButton is a colour that can be pressed.
type swatchButton struct {
	widget.BaseWidget
	face   fyne.CanvasObject
	tapped func(fyne.CanvasObject)
}

func newSwatchButton(face fyne.CanvasObject, tapped func(fyne.CanvasObject)) *swatchButton {
	b := &swatchButton{face: face, tapped: tapped}
	b.ExtendBaseWidget(b)
	return b
}

func (b *swatchButton) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(b.face) }
func (b *swatchButton) Tapped(*fyne.PointEvent)             { b.tapped(b) }
func (b *swatchButton) Cursor() desktop.Cursor              { return desktop.PointerCursor }
