//go:build window

package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
)

// TestAFirstSession is a first evening with the program in its real window: the
// welcome and the example, a fan circuit drawn from nothing, a finding mended
// with its remedy, saved, killed, recovered and exported.
func TestAFirstSession(t *testing.T) {
	program, settings, folder := build(t), t.TempDir(), t.TempDir()
	lib, err := catalog.Default()
	require.NoError(t, err)

	h := startIn(t, program, settings)
	h.waitTitle("example", false)
	h.answer(1, 0) // the caution
	h.answer(3, 1) // the welcome: begin an empty drawing
	h.waitTitle("untitled", false)
	shown := h.waitSheet()
	sheet := geom.Pt(2970, 2100) // A4

	kinds := []struct {
		name, text string
		at         geom.Point
	}{
		{"battery", "battery", geom.Pt(700, 1000)},
		{"fuse-regular", "blade fuse", geom.Pt(1100, 600)},
		{"radiator-fan", "radiator fan", geom.Pt(1500, 1000)},
		{"ground-body", "ground stud, body", geom.Pt(1100, 1500)},
	}
	pin := map[string]geom.Point{}
	for _, k := range kinds {
		h.key("p")
		h.write(k.text)
		h.key("Return")
		h.click(spot(shown, sheet, k.at))
		h.waitTitle("untitled", true)
		h.key("Escape", "Escape")
		for _, p := range lib.Kind(k.name).Pins {
			pin[k.name+" "+p.Name] = k.at.Add(p.At)
		}
	}
	for _, w := range [][2]string{
		{"battery +", "fuse-regular 1"}, {"fuse-regular 2", "radiator-fan 33"}, {"radiator-fan 31", "ground-body 1"}, {"battery -", "ground-body 1"},
	} {
		h.key("w")
		h.click(spot(shown, sheet, pin[w[0]]))
		h.click(spot(shown, sheet, pin[w[1]]))
		h.key("Escape", "Escape")
	}

	// The data that the checks ask for: of all wires at once, then of the fuse.
	h.key("ctrl+a", "Return")
	h.field(0, "1 mm2")
	h.field(2, "FLRY")
	h.key("Escape", "Escape")
	h.find("F1")
	h.key("Return")
	h.field(3, "40")
	h.key("Escape", "Escape")

	name := "fan.loom.json"
	file := filepath.Join(folder, name)
	h.key("ctrl+s")
	h.wait("the box that asks for a path", func() bool { return len(h.buttons()) == 2 })
	h.key("ctrl+a")
	h.write(file)
	h.key("Return")
	h.waitTitle(name, false)
	h.waitSheet()
	load := func() *schematic.Doc {
		doc, err := loomfile.Load(file, lib)
		require.NoError(t, err)
		require.Empty(t, schematic.Check(doc))
		return doc
	}
	doc := load()
	require.Equal(t, 4, doc.Len(schematic.TypePart))
	require.Equal(t, 4, doc.Len(schematic.TypeWire))
	for w := range doc.Wires() {
		require.Equal(t, "1 mm²", w.Size.String())
		require.Equal(t, "FLRY", w.Insulation)
		require.False(t, w.A.Loose() || w.B.Loose())
	}
	var fault check.Finding
	for _, f := range faults(doc) {
		if len(f.Fixes) > 0 {
			fault = f
		}
	}
	require.Equal(t, check.Error, fault.Severity, "the fuse lets more through than the wire bears")

	h.key("F4", "alt+m") // the gravest finding, and its first remedy
	h.waitTitle(name, true)
	h.key("ctrl+s")
	h.waitTitle(name, false)
	doc = load()
	require.NotContains(t, faults(doc), fault.ID, "mended")

	before := read(t, file)
	fan, _ := doc.Named("M1")
	h.key("Escape", "Escape")
	h.find("M1")
	h.key("Right")
	h.waitTitle(name, true)
	h.kill()
	require.Equal(t, string(before), string(read(t, file)))

	h = startIn(t, program, settings, file)
	h.answer(3, 0) // bring it back
	h.waitTitle(name, true)
	h.waitSheet()
	h.key("ctrl+s")
	h.waitTitle(name, false)
	moved := load().Part(fan.ID).Views[0].At
	require.Equal(t, doc.Part(fan.ID).Views[0].At.Add(geom.Pt(geom.Grid, 0)), moved)

	pdf := filepath.Join(folder, "fan.pdf")
	h.export(false, 0, pdf)
	checkPDF(t, pdf, "M1")
	h.key("ctrl+w")
	require.NoError(t, h.waitEnd())
}

// find goes to a part by its name.
func (h *hand) find(name string) {
	h.t.Helper()
	h.key("ctrl+f")
	h.wait("the box that finds parts", func() bool { return h.sheet().Empty() })
	h.write(name)
	h.key("Return")
	h.waitSheet()
}

// faults are the errors and warnings in a document.
func faults(d *schematic.Doc) map[string]check.Finding {
	n := netlist.Build(d)
	m := map[string]check.Finding{}
	for _, f := range check.Run(n, n.SolveAll()) {
		if f.Severity == check.Error || f.Severity == check.Warning {
			m[f.ID] = f
		}
	}
	return m
}

// write types a text, letter by letter.
func (h *hand) write(text string) {
	h.t.Helper()
	h.do("type", "--delay", "40", text)
}

// field goes so many fields on and writes there.
func (h *hand) field(on int, text string) {
	h.t.Helper()
	for range on {
		h.key("Tab")
	}
	h.key("ctrl+a")
	h.write(text)
	h.key("Return")
}
