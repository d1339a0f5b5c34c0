//go:build window

package main

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
)

// TestAFirstSession is a first evening with the program in its real window: the
// welcome and an example, a fan circuit drawn from nothing, its findings mended
// with the remedies offered, saved, killed, recovered and exported. What the
// files hold is looked at after every stage.
func TestAFirstSession(t *testing.T) {
	program, settings, folder := build(t), t.TempDir(), t.TempDir()
	lib, err := catalog.Default()
	require.NoError(t, err)
	name := "fan.loom.json"
	file := filepath.Join(folder, name)
	load := func() *schematic.Doc {
		doc, err := loomfile.Load(file, lib)
		require.NoError(t, err)
		require.Empty(t, schematic.Check(doc))
		return doc
	}

	h := startIn(t, program, settings)
	h.waitTitle("example", false)
	h.answer(1, 0)             // the caution
	h.buttonsOf(3)             // the welcome
	h.key("Tab", "Tab")        // the second example
	h.key("Return")            //
	h.shape(geom.Pt(210, 170)) // has a smaller sheet
	h.waitTitle("example", false)
	h.key("ctrl+n")
	h.waitTitle("untitled", false)
	h.drawFan(lib)

	h.key("ctrl+s")
	h.wait("the box that asks for a path", func() bool { return len(h.buttons()) == 2 })
	h.key("ctrl+a")
	h.write(file)
	h.key("Return")
	h.waitTitle(name, false)
	h.waitSheet()
	doc := load()
	require.Equal(t, 10, doc.Len(schematic.TypePart))
	require.Equal(t, 11, doc.Len(schematic.TypeWire))
	for w := range doc.Wires() {
		require.False(t, w.A.Loose() || w.B.Loose(), "%s ends at pins", w.Name)
	}
	missing := 0
	for _, f := range findings(doc) {
		require.NotEqual(t, check.Error, f.Severity, "%s: nothing is known yet, so nothing can be wrong", f.Text)
		if f.Severity == check.NotAssessed {
			missing++
		}
	}
	require.Greater(t, missing, 11, "what is missing is named: %d", missing)

	h.giveData()
	h.save(name)
	doc = load()
	for w := range doc.Wires() {
		require.Equal(t, "1.5 mm²", w.Size.String())
		require.Equal(t, "FLRY", w.Insulation)
		require.Equal(t, schematic.Some(1000), w.LengthMM)
	}
	for fuse, amp := range map[string]float64{"F1": 60, "F2": 3, "F3": 30} {
		k, _ := doc.Named(fuse)
		require.Equal(t, amp, doc.Part(k.ID).Values["amp"], fuse)
	}
	require.InDelta(t, 16, fanAmps(doc), 2, "the switch is on, the relay pulls and the fan runs")

	for round := 0; ; round++ {
		all := findings(doc)
		at := slices.IndexFunc(all, mendable)
		if at < 0 {
			require.Greater(t, round, 2, "there was something to mend")
			break
		}
		require.Less(t, round, 12, "mending comes to an end: %v", all[at].Text)
		h.mend(at, len(all))
		h.save(name)
		doc = load()
		require.NotContains(t, texts(findings(doc)), all[at].Text, "mended")
	}
	require.InDelta(t, 16, fanAmps(doc), 2, "and the fan still runs")

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
	h.save(name)
	moved := load().Part(fan.ID).Views[0].At
	require.Equal(t, doc.Part(fan.ID).Views[0].At.Add(geom.Pt(geom.Grid, 0)), moved)

	base, sheet := filepath.Join(folder, "fan"), doc.Sheets()[0]
	h.export(false, 0, base+".pdf")
	checkPDF(t, base+".pdf", "M1")
	require.Equal(t, 1, pages(t, base+".pdf"))
	require.NoError(t, os.Remove(base+".pdf"))
	h.exportLifeSize(base + ".pdf")
	require.Greater(t, pages(t, base+".pdf"), 1, "in life size the frame does not fit one page with its margins")
	checkPDF(t, base+".pdf", "100 mm")
	h.export(false, 1, base+".png")
	checkPNG(t, base+".png", sheet)
	h.export(false, 2, base+".svg")
	checkSVG(t, base+".svg", sheet, "M1")
	h.key("ctrl+w")
	require.NoError(t, h.waitEnd())
}

// drawFan draws a radiator fan on a relay, which a dash switch with an indicator
// moves, from an empty sheet.
func (h *hand) drawFan(lib *schematic.Library) {
	h.t.Helper()
	shown := h.waitSheet()
	sheet := geom.Pt(2970, 2100) // A4
	pin := map[string]geom.Point{}
	for _, k := range []struct {
		kind, text string
		names      []string
		at         []geom.Point
	}{
		{"battery", "battery", []string{"G1"}, []geom.Point{{X: 400, Y: 1000}}},
		{"fuse-sf30", "bolted fuse SF30", []string{"F1"}, []geom.Point{{X: 700, Y: 400}}},
		{"fuse-regular", "blade fuse", []string{"F2", "F3"}, []geom.Point{{X: 1200, Y: 700}, {X: 2000, Y: 700}}},
		{"switch-illuminated", "switch with indicator", []string{"S1"}, []geom.Point{{X: 1200, Y: 1050}}},
		{"relay-make", "relay, make contact", []string{"K1"}, []geom.Point{{X: 1950, Y: 1050}}},
		{"radiator-fan", "radiator fan", []string{"M1"}, []geom.Point{{X: 2000, Y: 1350}}},
		{"ground-body", "ground stud, body", []string{"GND1", "GND2", "GND3"}, []geom.Point{{X: 400, Y: 1600}, {X: 1275, Y: 1600}, {X: 2000, Y: 1650}}},
	} {
		h.key("p")
		h.write(k.text)
		h.key("Return")
		for i, at := range k.at {
			h.click(spot(shown, sheet, at))
			for _, p := range lib.Kind(k.kind).Pins {
				pin[k.names[i]+" "+p.Name] = at.Add(p.At)
			}
		}
		h.waitTitle("untitled", true)
		h.key("Escape", "Escape")
	}
	h.key("w")
	for _, w := range [][2]string{
		{"G1 +", "F1 1"}, {"F1 2", "F2 1"}, {"F2 1", "F3 1"}, {"F2 2", "S1 82"}, {"S1 82a", "K1 86"}, {"S1 31", "GND2 1"},
		{"F3 2", "K1 30"}, {"K1 85", "GND3 1"}, {"K1 87", "M1 33"}, {"M1 31", "GND3 1"}, {"G1 -", "GND1 1"},
	} {
		h.click(spot(shown, sheet, pin[w[0]]))
		h.click(spot(shown, sheet, pin[w[1]]))
	}
	h.key("Escape", "Escape")
}

// giveData writes what the checks ask for: of all wires at once, then of the
// fuses and the fan, and switches the fan on.
func (h *hand) giveData() {
	h.t.Helper()
	h.key("ctrl+a", "Return")
	h.field(0, "1.5 mm2")
	h.field(2, "FLRY")
	h.field(5, "1 m")
	h.key("Escape", "Escape")
	for _, v := range []struct {
		part   string
		fields []string // from the first value on
	}{
		{"F1", []string{"60"}}, {"F2", []string{"3"}}, {"F3", []string{"30"}}, {"M1", []string{"12", "16", "60"}}, {"S1", []string{"0.01", "10"}},
	} {
		h.find(v.part)
		h.key("Return")
		on := 3 // after designation, purpose and lock
		for _, text := range v.fields {
			h.field(on, text)
			on = 1
		}
		if v.part == "S1" { // after the values of the indicator its position
			h.key("Tab", "Tab", "Tab", "Right")
		}
		h.key("Escape", "Escape")
	}
}

// mend goes to one of n findings and takes its first remedy.
func (h *hand) mend(at, n int) {
	h.t.Helper()
	h.still() // the list must be that of the last change
	for range (at-h.mended+n)%n + 1 {
		h.key("F4")
	}
	h.mended = at // the list goes on where the finding was
	h.key("alt+m")
}

// save saves a drawing that has a file and changes.
func (h *hand) save(name string) {
	h.t.Helper()
	h.waitTitle(name, true)
	h.key("ctrl+s")
	h.waitTitle(name, false)
}

// still waits until nothing on the screen has changed for a while: the checks
// work beside the window, and only the screen tells when they are done.
func (h *hand) still() {
	h.t.Helper()
	last, since := h.look(), time.Now()
	h.wait("a screen that stays as it is", func() bool {
		now := h.look()
		if !bytes.Equal(now.Pix, last.Pix) {
			last, since = now, time.Now()
		}
		return time.Since(since) > 2*time.Second
	})
}

// shape waits until a sheet of these proportions is to be seen.
func (h *hand) shape(of geom.Point) {
	h.t.Helper()
	h.wait(fmt.Sprintf("a sheet of %v", of), func() bool {
		s := h.sheet()
		return !s.Empty() && math.Abs(float64(s.Dx())/float64(s.Dy())*float64(of.Y)/float64(of.X)-1) < 0.02
	})
}

// exportLifeSize writes the drawing as PDF at its own size.
func (h *hand) exportLifeSize(file string) {
	h.t.Helper()
	h.key("ctrl+p")
	h.wait("the export box", func() bool { return len(h.buttons()) > 0 })
	h.key("Tab", "Tab", "Tab", "Tab", "Tab", "Right") // what, sheets, colours, paper, scale
	h.answer(2, 0)
	h.wait(file, func() bool { _, err := os.Stat(file); return err == nil })
	h.answer(1, 0)
	h.waitSheet()
}

// findings are what the checks say, in the order of the list.
func findings(d *schematic.Doc) []check.Finding {
	n := netlist.Build(d)
	return check.Run(n, n.SolveAll())
}

// mendable reports whether a finding is grave and has a remedy.
func mendable(f check.Finding) bool {
	return (f.Severity == check.Error || f.Severity == check.Warning) && len(f.Fixes) > 0
}

func texts(fs []check.Finding) []string {
	var all []string
	for _, f := range fs {
		all = append(all, f.Text)
	}
	return all
}

// fanAmps is what M1 carries in the first operating state.
func fanAmps(d *schematic.Doc) float64 {
	n := netlist.Build(d)
	sol := n.Solve(d.States()[0])
	k, _ := d.Named("M1")
	most := 0.0
	for _, i := range n.PartBranches(k.ID) {
		most = max(most, math.Abs(sol.Amp[i]))
	}
	return most
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
