//go:build window

package main

import (
	"cmp"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
)

// drawing is the harness the test works on, in the folder testdata of the
// module.
const drawing = "pickup.loom.json"

// TestOneDrawingFromOpenToClose draws, undoes, saves, exports and closes in the
// real window, by mouse and keyboard.
func TestOneDrawingFromOpenToClose(t *testing.T) {
	program := build(t)
	folder := t.TempDir()
	file, before, lib := copyOf(t, folder, drawing)
	doc, err := loomfile.Load(file, lib)
	require.NoError(t, err)

	h := start(t, program, file)
	h.waitTitle(drawing, false)
	h.answer(1, 0) // the caution of the first start
	shown := h.waitSheet()
	sheet := doc.Sheets()[0]
	size := sheet.Area().Max
	require.InEpsilon(t, float64(size.X)/float64(size.Y), float64(shown.Dx())/float64(shown.Dy()), 0.01,
		"the sheet is shown whole, at %v", shown)

	a, b := farPins(t, doc, sheet)
	t.Logf("a wire from %s.%s to %s.%s", doc.Part(a.end.Part).Name, a.end.Pin, doc.Part(b.end.Part).Name, b.end.Pin)
	h.key("w")
	h.click(spot(shown, size, a.at))
	h.click(spot(shown, size, b.at))
	h.waitTitle(drawing, true)
	h.key("Escape", "Escape") // back to selecting, and nothing selected
	h.key("ctrl+z")
	h.waitTitle(drawing, false)
	h.key("ctrl+y")
	h.waitTitle(drawing, true)
	h.key("ctrl+s")
	h.waitTitle(drawing, false)
	added := addedWire(t, before, read(t, file))
	require.ElementsMatch(t, []end{a.end, b.end}, []end{added.A, added.B})
	require.Equal(t, sheet.ID, added.Sheet)

	h.key("ctrl+z")
	h.waitTitle(drawing, true)
	h.key("ctrl+s")
	h.waitTitle(drawing, false)
	require.Equal(t, string(before), string(read(t, file)), "undone and saved, the file is as it was, byte for byte")

	base := strings.TrimSuffix(file, loomfile.Ext)
	several := len(doc.Sheets()) > 1
	h.export(several, 0, base+".pdf")
	h.export(several, 1, base+".png")
	h.export(several, 2, base+".svg")
	checkPDF(t, base+".pdf", doc.Info().Title)
	checkPNG(t, base+".png", sheet)
	checkSVG(t, base+".svg", sheet, doc.Info().Title)

	h.key("ctrl+y")
	h.waitTitle(drawing, true)
	h.key("ctrl+w")
	h.answer(3, 2) // go back
	h.waitSheet()
	h.waitTitle(drawing, true) // and the program still runs
	h.key("Alt_L")             // opens the first menu
	h.key("Up", "Return")      // Quit is its last entry
	h.answer(3, 1)             // give the changes up
	require.NoError(t, h.waitEnd(), "the program ends with exit code 0")
	require.Equal(t, string(before), string(read(t, file)), "changes given up are not in the file")
	require.Equal(t, []string{filepath.Join(folder, ".loom-versions"), file, base + ".pdf", base + ".png", base + ".svg"}, files(t, folder), "nothing else is left behind but the earlier versions")
}

// build makes the program as it is given to people.
func build(t testing.TB) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "loomwright")
	out, err := exec.Command("go", "build", "-tags", "migrated_fynedo,no_emoji", "-o", program, ".").CombinedOutput()
	require.NoError(t, err, "%s", out)
	return program
}

// export writes the sheet in sight through the export box; format counts from
// the one offered first.
func (h *hand) export(several bool, format int, file string) {
	h.t.Helper()
	h.key("ctrl+p")
	h.wait("the export box", func() bool { return len(h.buttons()) > 0 })
	h.key("Tab")
	for range format {
		h.key("Right")
	}
	if several {
		h.key("Tab", "Left") // this sheet instead of all
	}
	h.answer(2, 0) // write the file
	h.wait(file, func() bool { _, err := os.Stat(file); return err == nil })
	h.answer(1, 0) // the box that names the file
	h.waitSheet()
}

// end is a wire's end in the file.
type end struct {
	Part schematic.ID `json:"part"`
	Pin  string       `json:"pin"`
	View string       `json:"view"`
}

// pin is a pin on a sheet.
type pin struct {
	end  end
	at   geom.Point
	room float64 // to the next pin
}

// farPins returns two pins of different parts on a sheet that no wire joins and
// that have more room round them than others: easy ones for a mouse.
func farPins(t *testing.T, d *schematic.Doc, s *schematic.Sheet) (a, b pin) {
	var all []pin
	for p := range d.Parts() {
		for _, v := range p.Views {
			if v.Sheet != s.ID {
				continue
			}
			for _, placed := range d.PlacedPins(p, v) {
				all = append(all, pin{end{p.ID, placed.Pin.Name, v.Key}, placed.At, math.Inf(1)})
			}
		}
	}
	for i := range all {
		for j := range all {
			if d := all[i].at.Sub(all[j].at); i != j {
				all[i].room = min(all[i].room, math.Hypot(float64(d.X), float64(d.Y)))
			}
		}
	}
	slices.SortStableFunc(all, func(p, q pin) int { return cmp.Compare(q.room, p.room) })
	joined := func(p, q pin) bool {
		for w := range d.Wires() {
			if w.A.Part == p.end.Part && w.B.Part == q.end.Part || w.A.Part == q.end.Part && w.B.Part == p.end.Part {
				return true
			}
		}
		return false
	}
	for i, p := range all {
		for _, q := range all[:i] {
			if p.end.Part != q.end.Part && !joined(p, q) {
				return q, p
			}
		}
	}
	require.FailNow(t, "no two pins to join")
	return
}
