//go:build window

package main

import (
	"image"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/loomfile"
	"loomwright/schematic/sample"
)

// TestKilledInTheMiddleOfADrag kills the real program twice: after a wire was
// drawn, and then again with a part in the hand. The next start offers the wire
// and leaves the part where it was.
func TestKilledInTheMiddleOfADrag(t *testing.T) {
	program, settings := build(t), t.TempDir()
	file, before, lib := copyOf(t, t.TempDir(), drawing)
	doc, err := loomfile.Load(file, lib)
	require.NoError(t, err)
	sheet := doc.Sheets()[0]
	size := sheet.Area().Max
	a, b := farPins(t, doc, sheet)

	h := startIn(t, program, settings, file)
	h.waitTitle(drawing, false)
	h.answer(1, 0) // the caution of the first start
	shown := h.waitSheet()
	h.key("w")
	h.click(spot(shown, size, a.at))
	h.click(spot(shown, size, b.at))
	h.waitTitle(drawing, true)
	h.kill()
	require.Equal(t, string(before), string(read(t, file)), "nothing was saved")

	h = startIn(t, program, settings, file)
	h.answer(3, 0) // bring it back
	h.waitTitle(drawing, true)
	shown = h.waitSheet()
	h.key("Escape", "Escape")
	at := spot(shown, size, a.at)
	h.do("mousemove", strconv.Itoa(at.X), strconv.Itoa(at.Y), "mousedown", "1")
	for i := range 8 {
		to := at.Add(image.Pt(10*(i+1), 6*(i+1)))
		h.do("mousemove", strconv.Itoa(to.X), strconv.Itoa(to.Y), "sleep", "0.05")
	}
	h.kill()
	h.do("mouseup", "1")
	require.Equal(t, string(before), string(read(t, file)))

	h = startIn(t, program, settings, file)
	h.answer(3, 0)
	h.waitTitle(drawing, true)
	h.waitSheet()
	h.key("ctrl+s")
	h.waitTitle(drawing, false)
	added := addedWire(t, before, read(t, file)) // and nothing else is different
	require.ElementsMatch(t, []end{a.end, b.end}, []end{added.A, added.B})
	require.NoFileExists(t, loomfile.JournalPath(file))
	h.key("ctrl+w")
	require.NoError(t, h.waitEnd())
}

// TestKilledWhileSaving kills the real program at several moments of a save of a
// large file. The file must be the whole old or the whole new one, and file and
// journal together must hold everything that was drawn.
func TestKilledWhileSaving(t *testing.T) {
	program, settings := build(t), t.TempDir()
	lib, err := catalog.Default()
	require.NoError(t, err)
	doc := sample.Harness(lib, 4000, 1)
	base, err := loomfile.Encode(doc)
	require.NoError(t, err)
	var old, whole int
	for _, after := range []time.Duration{0, 30, 90, 160, 240, 320, 500, -1} {
		name := "large" + strconv.Itoa(int(after)) + ".loom.json"
		file := filepath.Join(t.TempDir(), name)
		require.NoError(t, os.WriteFile(file, base, 0o644))
		h := startIn(t, program, settings, file)
		h.waitTitle(name, false)
		if old+whole == 0 {
			h.answer(1, 0)
		}
		h.waitSheet()
		h.key("ctrl+a", "Right")
		h.waitTitle(name, true)
		h.key("ctrl+s")
		if after < 0 { // the last one gets the time it needs
			h.waitTitle(name, false)
		}
		time.Sleep(after * time.Millisecond)
		h.kill()

		now, err := loomfile.Load(file, lib)
		require.NoError(t, err, "the file is whole")
		if string(read(t, file)) == string(base) {
			old++
		} else {
			whole++
		}
		if rec, err := loomfile.Recover(file); rec != nil {
			require.NoError(t, err)
			out, err := rec.Replay(now, lib)
			require.NoError(t, err)
			require.NoError(t, rec.Close())
			now = out.Doc
		}
		moved := 0
		for p := range now.Parts() {
			for i, v := range p.Views {
				if v.At != doc.Part(p.ID).Views[i].At {
					moved++
				}
			}
		}
		require.NotZero(t, moved, "killed %d ms into the save, file and journal hold the move", after)
		require.Empty(t, schematic.Check(now))
	}
	t.Logf("killed %d times before the new file was in place, %d times after", old, whole)
	require.NotZero(t, whole, "the last one had time to finish")
}

// TestKilledAtAnyMoment kills the real program again and again while a hand moves
// everything to the right and saves without a pause, and goes on from what is
// recovered. What file and journal held before the kill is still held after it,
// and the file is never broken.
func TestKilledAtAnyMoment(t *testing.T) {
	program, settings := build(t), t.TempDir()
	file, _, lib := copyOf(t, t.TempDir(), drawing)
	first := func(d *schematic.Doc) *schematic.Part {
		for p := range d.Parts() {
			return p
		}
		return nil
	}
	base, err := loomfile.Load(file, lib)
	require.NoError(t, err)
	id, from := first(base).ID, first(base).Views[0].At

	// held is how far everything has come, in file and journal together, and
	// whether the journal has something the file has not.
	held := func() (x int, pending bool) {
		t.Helper()
		now, err := loomfile.Load(file, lib)
		require.NoError(t, err, "the file is whole")
		rec, err := loomfile.Recover(file)
		require.NoError(t, err)
		if rec != nil {
			out, err := rec.Replay(now, lib)
			require.NoError(t, err)
			require.NoError(t, rec.Close())
			now, pending = out.Doc, len(out.Steps) > 0
		}
		require.Empty(t, schematic.Check(now))
		return now.Part(id).Views[0].At.X, pending
	}
	rng := rand.New(rand.NewPCG(4, 6))
	far, kept := from.X, 0
	for round := range 8 {
		_, pending := held()
		h := startIn(t, program, settings, file)
		switch {
		case round == 0:
			h.waitTitle(drawing, false)
			h.answer(1, 0)
		case pending:
			h.answer(3, 0)
			h.waitTitle(drawing, true)
			kept++
		default:
			h.waitTitle(drawing, false)
		}
		shown := h.waitSheet()
		h.key("ctrl+a", "Right")
		h.wait("a step on disk", func() bool { x, _ := held(); return x > far })
		for range rng.IntN(6) {
			h.key([]string{"Right", "Right", "ctrl+s"}[rng.IntN(3)])
		}
		if round%2 == 1 { // with something in the hand
			at := shown.Min.Add(shown.Size().Div(2))
			h.do("mousemove", strconv.Itoa(at.X), strconv.Itoa(at.Y), "mousedown", "1", "mousemove", strconv.Itoa(at.X+40), strconv.Itoa(at.Y+30))
		}
		time.Sleep(time.Duration(rng.IntN(120)) * time.Millisecond)
		seen, _ := held()
		h.kill()
		h.do("mouseup", "1")
		now, _ := held()
		require.GreaterOrEqual(t, now, seen, "round %d", round)
		require.Greater(t, now, far, "round %d", round)
		far = now
	}
	t.Logf("everything came %d to the right; recovered %d times", far-from.X, kept)
	require.NotZero(t, kept)
}
