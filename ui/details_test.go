package ui

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// fieldNamed returns the field of the details panel with that name.
func (r *rig) fieldNamed(name string) *field {
	r.t.Helper()
	for _, c := range r.details.controls {
		switch c := c.(type) {
		case *field:
			if c.name == name {
				return c
			}
		case *colorField:
			if c.name == name {
				return c.field
			}
		case remarked:
			if f, ok := c.control.(*field); ok && f.name == name {
				return f
			}
		case indented:
			if f, ok := c.control.(*field); ok && f.name == name {
				return f
			}
		}
	}
	require.Fail(r.t, "no field", name)
	return nil
}

// write types into a field and leaves it.
func (r *rig) write(name, text string) *field {
	r.t.Helper()
	f := r.fieldNamed(name)
	r.win.Canvas().Focus(f.input)
	f.input.SetText(text)
	r.win.Canvas().Focus(r.sheetView)
	return f
}

func TestWireFieldsTakeWhatBuildersWrite(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W5"))
	for _, c := range []struct {
		field, typed, shown string
		check               func(*schematic.Wire) any
		want                any
		why                 string
	}{
		{"Size", "18 AWG", "AWG 18", func(w *schematic.Wire) any { return w.Size.Key() }, "AWG 18", "gauge"},
		{"Size", "0,75 mm2", "0.75 mm²", func(w *schematic.Wire) any { return w.Size.Key() }, "0.75 mm2", "decimal comma"},
		{"Measured", "4 ft", "1219.2 mm", func(w *schematic.Wire) any { return w.LengthMM }, schematic.Some(1219.2), "feet, 304.8 mm each"},
		{"Measured", "1.2 m", "1200 mm", func(w *schematic.Wire) any { return w.LengthMM }, schematic.Some(1200), "metres"},
		{"Measured", "", "", func(w *schematic.Wire) any { return w.LengthMM }, schematic.Num{}, "empty is not known, never 0"},
		{"Colour", "bu/rd", "BU/RD", func(w *schematic.Wire) any { return w.Color.String() }, "BU/RD", "small letters"},
		{"Temperature class", "221 F", "105 °C", func(w *schematic.Wire) any { return w.TempC.Or(0) }, 105.0, "Fahrenheit"},
		{"Circuit", " fan feed ", "fan feed", func(w *schematic.Wire) any { return w.Circuit }, "fan feed", "spaces go"},
		{"Designation", "W50", "W50", func(w *schematic.Wire) any { return w.Name }, "W50", "rename"},
	} {
		f := r.write(c.field, c.typed)
		w := r.doc().Wire(r.sess.Selection()[0].ID)
		assert.Equal(t, c.want, c.check(w), c.why)
		assert.Equal(t, c.shown, r.fieldNamed(c.field).input.Text, c.why)
		assert.False(t, f.note.Visible(), c.why)
	}
	assert.Equal(t, "set designation of W5", r.sess.UndoLabel())
	for range 9 {
		r.do("edit.undo")
	}
	assert.False(t, r.sess.Modified(), "every field is one step, and each can be taken back")
}

func TestMistakesAreSaidAtTheField(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W5"))
	doc := r.doc()
	for _, c := range []struct{ field, typed, says string }{
		{"Size", "thick", "thick"},
		{"Colour", "mauve", "MAUVE"},
		{"Measured", "12 V", "length"},
		{"Designation", "G1", "G1"},
		{"Designation", "", "designation"},
	} {
		f := r.write(c.field, c.typed)
		assert.True(t, f.note.Visible(), c.field)
		assert.Contains(t, f.note.Text, c.says)
		assert.Equal(t, c.typed, f.input.Text, "what was typed stays to be mended")
		assert.Same(t, doc, r.doc(), "nothing has changed")
	}
	f := r.fieldNamed("Size")
	f.input.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	r.write("Size", "2.5")
	assert.False(t, r.fieldNamed("Size").note.Visible(), "mended")
}

func TestUndoInAFieldThatIsSettledMeansTheDrawing(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W5"))
	f := r.fieldNamed("Size")
	r.win.Canvas().Focus(f.input)
	f.input.SetText("4 mm²")
	f.input.OnSubmitted(f.input.Text)
	assert.Equal(t, "4 mm²", r.wire("W5").Size.String())
	r.do("edit.undo")
	assert.Equal(t, "2.5 mm²", r.wire("W5").Size.String())
	assert.Equal(t, "2.5 mm²", f.input.Text, "the field follows")
	f.input.SetText("half typed")
	r.do("edit.redo")
	assert.Equal(t, "2.5 mm²", r.wire("W5").Size.String(), "while typing the keys mean the text")
	f.input.revert()
}

func TestPartValuesWithUnits(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("M1"))
	r.write("Running current", "2500 mA")
	assert.Equal(t, 2.5, r.part("M1").Values["amp"])
	assert.Equal(t, "2.5 A", r.fieldNamed("Running current").input.Text)
	r.write("Running current", "")
	_, set := r.part("M1").Values["amp"]
	assert.False(t, set, "empty brings the default back")
	r.write("What it does", "main fan")
	assert.Equal(t, "main fan", r.part("M1").Label)
}

func TestPinsOfAConnector(t *testing.T) {
	r := newRig(t, "")
	r.takePart("connector-plug")
	r.click(100, 100)
	r.key(fyne.KeyEscape)
	plug := schematic.Key{}
	for p := range r.doc().Parts() {
		if p.Kind == "connector-plug" {
			plug = p.Key()
		}
	}
	r.choose(plug)
	r.write("How many", "7")
	assert.Len(t, r.doc().Part(plug.ID).Pins, 7)
	lines := 0
	for _, c := range r.details.controls {
		if _, ok := c.(*pinLine); ok {
			lines++
		}
	}
	assert.Equal(t, 7, lines, "the panel follows")
	f := r.write("How many", "900")
	assert.True(t, f.note.Visible())
	r.do("edit.undo")
	assert.Len(t, r.doc().Part(plug.ID).Pins, 4)
}

func TestSeveralWiresAtOnce(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W4"), r.named("W5"), r.named("M1"))
	assert.Equal(t, "3 items", r.details.title.Text)
	f := r.fieldNamed("Size")
	assert.Empty(t, f.input.Text)
	assert.Equal(t, mixed, f.input.PlaceHolder)
	r.write("Size", "AWG 12")
	assert.Equal(t, "AWG 12", r.wire("W4").Size.String())
	assert.Equal(t, "AWG 12", r.wire("W5").Size.String())
	assert.Equal(t, "AWG 12", r.fieldNamed("Size").input.Text)
	r.do("edit.undo")
	assert.Equal(t, "1 mm²", r.wire("W4").Size.String(), "one step for both")
	assert.Equal(t, "2.5 mm²", r.wire("W5").Size.String())
}

func TestSeveralPartsAtOnce(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("F1"), r.named("F2"), r.named("K1"))
	has := func(name string) bool {
		for _, c := range r.details.controls {
			if f, ok := c.(*field); ok && f.name == name {
				return true
			}
		}
		return false
	}
	assert.False(t, has("Rating"), "a relay has no such value")
	r.choose(r.named("F1"), r.named("F2"))
	require.True(t, has("Rating"))
	assert.Equal(t, mixed, r.fieldNamed("Rating").input.PlaceHolder)
	assert.Equal(t, mixed, r.fieldNamed("What they do").input.PlaceHolder)
	r.write("Rating", "20")
	assert.Equal(t, 20.0, r.part("F1").Values["amp"])
	assert.Equal(t, 20.0, r.part("F2").Values["amp"])
	r.write("Part number", "FB-20")
	for _, c := range r.details.controls {
		if ch, ok := c.(*choice); ok && slices.Equal(ch.options(), []string{"yes", "no"}) {
			ch.sel.SetSelected("yes")
		}
	}
	assert.True(t, r.part("F1").Locked && r.part("F2").Locked)
	r.do("edit.undo")
	r.do("edit.undo")
	assert.Empty(t, r.part("F2").Number)
	assert.Equal(t, "20 A", r.fieldNamed("Rating").input.Text, "one step each")

	f := r.write("Rating", "much")
	assert.True(t, f.note.Visible(), "a mistake is said at the field")
	assert.Equal(t, 20.0, r.part("F1").Values["amp"])
}

func TestSeveralWiresShareEndsAndChoices(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W4"), r.named("W5"))
	r.write("Terminals", "blade 6.3")
	assert.Equal(t, "blade 6.3", r.wire("W4").A.Terminal)
	assert.Equal(t, "blade 6.3", r.wire("W5").B.Terminal)
	require.NoError(t, r.sess.Do("one end", func(tx *edit.Tx) error {
		return edit.SetWire(tx, r.wire("W4").ID, func(w *schematic.Wire) { w.A.Terminal = "ring" })
	}))
	assert.Equal(t, mixed, r.fieldNamed("Terminals").input.PlaceHolder)
	assert.Empty(t, r.fieldNamed("Terminals").input.Text)
	r.choose(r.named("W4"), r.named("F1"))
	assert.Equal(t, mixed, r.fieldNamed("Terminals").input.PlaceHolder, "one wire among parts, with another terminal at either end")
	assert.Empty(t, r.fieldNamed("Terminals").input.Text)
	r.choose(r.named("W4"), r.named("W5"))
	r.write("Colour", "BU/WH")
	assert.Equal(t, r.wire("W4").Color, r.wire("W5").Color)
	for _, c := range r.details.controls {
		if ch, ok := c.(*choice); ok && slices.Contains(ch.options(), "aluminium") {
			ch.sel.SetSelected("aluminium")
		}
	}
	assert.Equal(t, schematic.Aluminium, r.wire("W4").Metal)
	assert.Equal(t, schematic.Aluminium, r.wire("W5").Metal)
}

func TestWalkThroughTheFieldsByKey(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W5"))
	r.do("edit.details")
	canvas := r.win.Canvas()
	first := canvas.Focused().(*entry)
	assert.Equal(t, "W5", first.Text)
	first.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	second := canvas.Focused().(*entry)
	assert.NotSame(t, first, second)
	second.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	assert.Same(t, first, canvas.Focused())
	assert.Zero(t, r.details.scroll.Offset.Y)
	notes := r.fieldNamed("Notes").input
	canvas.Focus(notes)
	notes.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	assert.NotSame(t, notes, canvas.Focused(), "Tab leads out of a long text")
	canvas.Focus(notes)
	assert.Positive(t, r.details.scroll.Offset.Y, "the field with the keyboard is scrolled into sight")
	canvas.Focus(first)
	assert.Less(t, r.details.scroll.Offset.Y, float32(40))
}

func TestDocumentAndSheetWithNothingSelected(t *testing.T) {
	r := newRig(t, lampsFile)
	r.write("Title", "New loom")
	assert.Equal(t, "New loom", r.doc().Info().Title)
	r.write("System voltage", "24")
	assert.Equal(t, 24.0, r.doc().Info().Volts())
	r.write("Width", "297")
	assert.Equal(t, 2970, r.doc().Sheet(r.sheet).Width)
	assert.Equal(t, 2970, r.doc().Sheet(r.sheet).Area().Height(), "the other side stays")
	for _, c := range r.details.controls {
		if ch, ok := c.(*choice); ok {
			ch.sel.SetSelected("A4 upright")
		}
	}
	assert.Equal(t, 2100, r.doc().Sheet(r.sheet).Area().Width())
}

func TestTheKeyboardStaysWhereItIsWhileResultsComeIn(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W5"))
	f := r.fieldNamed("Notes")
	r.win.Canvas().Focus(f.input)
	f.input.SetText("half a sen")
	r.studied()
	r.follow()
	assert.Same(t, f, r.fieldNamed("Notes"), "the page is not made anew")
	assert.Equal(t, "half a sen", f.input.Text)
	assert.Equal(t, fyne.Focusable(f.input), r.win.Canvas().Focused())
}

func TestNotesAndLinks(t *testing.T) {
	r := newRig(t, lampsFile)
	var note schematic.Key
	for n := range r.doc().Notes() {
		if n.Width == 0 {
			note = n.Key()
		}
	}
	r.jump(note)
	r.write("Text", "other words")
	assert.Equal(t, "other words", r.doc().Get(note).(*schematic.Note).Text)
	r.choose(r.named("W5"))
	r.write("Links", "Data | docs/fan.pdf\nhttps://example.org/x")
	assert.Equal(t, []schematic.Link{{Title: "Data", Target: "docs/fan.pdf"}, {Target: "https://example.org/x"}}, r.wire("W5").Links)
	f := r.write("Links", "Title only |")
	assert.True(t, f.note.Visible())
}

func TestImperialUnits(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W5"))
	r.do("view.imperial")
	assert.Equal(t, "4 ft 11.1 in", r.fieldNamed("Measured").input.Text, "1500 mm")
	r.write("Measured", "5'")
	assert.InDelta(t, 1524, r.wire("W5").LengthMM.Or(0), 1e-9)
}

func TestEveryKindHasADetailsPage(t *testing.T) {
	r := newRig(t, "")
	for i, name := range r.lib.Names() {
		if r.lib.Kind(name).OtherHalf != "" {
			continue // its other half is placed with it
		}
		r.takePart(name)
		r.click(20+float64(i%12)*30, 20+float64(i/12)*30)
		r.key(fyne.KeyEscape)
	}
	require.Greater(t, r.doc().Len(schematic.TypePart), 50)
	for p := range r.doc().Parts() {
		r.choose(p.Key())
		assert.Equal(t, p.Name, r.details.title.Text)
		labels := 0
		walk(r.details.box, func(o fyne.CanvasObject) {
			if l, ok := o.(*widget.Label); ok && l.Visible() && l.Text != "" {
				labels++
			}
		})
		assert.Greater(t, labels, 8, p.Kind)
	}
}

func TestLimitsOfTheChecks(t *testing.T) {
	r := newRig(t, lampsFile)
	limits := check.Limits()
	require.NotEmpty(t, limits)
	for _, l := range limits {
		name := sentence(l.Title)
		if _, known := quantityOf(l.Unit); !known && l.Unit != "" {
			name += " (" + l.Unit + ")"
		}
		f := r.fieldNamed(name)
		assert.Contains(t, f.input.PlaceHolder, "by default", "%s shows its default", l.Name)
	}
	l := limits[0]
	r.write(sentence(l.Title), "2")
	assert.Equal(t, 2.0, r.doc().Info().Limits[l.Name])
	f := r.write(sentence(l.Title), "much")
	assert.True(t, f.note.Visible())
	r.write(sentence(l.Title), "")
	assert.Empty(t, r.doc().Info().Limits, "empty is the default again")
}

func TestConnectorsArePluggedAndPulledApart(t *testing.T) {
	r := newRig(t, "")
	r.takePart("connector-plug")
	r.click(100, 100)
	r.key(fyne.KeyEscape)
	r.do("edit.all")
	require.Len(t, r.selectedParts(), 2, "a plug brings its other half")
	r.do("edit.unplug")
	for p := range r.doc().Parts() {
		assert.Equal(t, schematic.ID{}, p.Mate)
	}
	r.do("edit.all")
	assert.True(t, r.canPlug())
	r.do("edit.plug")
	for p := range r.doc().Parts() {
		assert.NotEqual(t, schematic.ID{}, p.Mate)
	}
}

func TestAStudIsShownOnAnotherSheet(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("sheet.next")
	r.do("edit.showhere")
	in := r.win.Canvas().Focused().(*entry)
	in.SetText("gnd1")
	in.OnSubmitted(in.Text)
	assert.Contains(t, sheetsOf(r.part("GND1")), r.sheet)
	assert.Equal(t, []string{"GND1"}, r.selected())
}

func TestScreensAndTheirDrain(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W5"), r.named("W6"))
	r.do("edit.screen")
	g := r.wire("W5").Screen
	require.NotEqual(t, schematic.ID{}, g)
	r.choose(r.named("W6"))
	for _, c := range r.details.controls {
		if tk, ok := c.(*tick); ok {
			tk.check.SetChecked(true)
		}
	}
	assert.Equal(t, r.named("W6").ID, r.doc().Group(g).Drain)
	r.do("edit.unbind")
	assert.Equal(t, schematic.ID{}, r.wire("W6").Screen)
}

func TestBendsByMenu(t *testing.T) {
	r := newRig(t, lampsFile)
	w := r.wire("W7")
	n := len(r.doc().Path(w))
	items := r.bendItems(w, geom.Pt(500, 1900))
	items[0].Action()
	w = r.wire("W7")
	assert.Greater(t, len(r.doc().Path(w)), n)
	items = r.bendItems(w, r.doc().Path(w)[1])
	require.Equal(t, "Take this bend out", items[0].Label)
	items[0].Action()
	r.choose(r.named("W7"))
	r.do("wires.anew")
	assert.Len(t, r.doc().Path(r.wire("W7")), n)
	parts := r.doc().Len(schematic.TypePart)
	r.bendItems(r.wire("W7"), geom.Pt(500, 1900))[1].Action()
	assert.Equal(t, parts+1, r.doc().Len(schematic.TypePart), "a splice")
}
