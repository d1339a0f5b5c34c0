package ui

import (
	"fmt"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

// The gestures on a large sheet: what they take of the window's own goroutine,
// where the budget is a frame, 16 ms.

// bigSheet is a window with a sheet of 10 000 wires, its picture made and the
// sheet surveyed for the router, which both happen beside the window.
func bigSheet(b *testing.B) *Editor {
	ed := benchRig(b, 10000)
	ed.pictures.base = ed.pictures.make(wanted{ed.doc(), ed.sheet, ed.drawOptions()})
	route.Of(ed.doc(), ed.sheet)
	return ed
}

// block returns n parts that stand together, in the order of their designations.
func block(ed *Editor, n int) []schematic.Key {
	var parts []*schematic.Part
	for p := range ed.doc().Parts() {
		if y := p.Views[0].At.Y; y > 1000 && p.Views[0].At.X < 500+300*(n/8+2) {
			parts = append(parts, p)
		}
	}
	slices.SortFunc(parts, func(a, b *schematic.Part) int { return schematic.CompareNames(a.Name[1:], b.Name[1:]) })
	keys := make([]schematic.Key, n)
	for i := range keys {
		keys[i] = parts[i].Key()
	}
	return keys
}

// undone takes the last edit back outside the time measured.
func undone(b *testing.B, ed *Editor) {
	b.StopTimer()
	if err := ed.sess.Undo(); err != nil {
		b.Fatal(err)
	}
	b.StartTimer()
}

func BenchmarkAlign(b *testing.B) {
	for _, n := range []int{10, 80} {
		b.Run(fmt.Sprintf("parts=%d", n), func(b *testing.B) {
			ed := bigSheet(b)
			ed.choose(block(ed, n)...)
			for b.Loop() {
				ed.rearrange("align", func(tx *edit.Tx, keys []schematic.Key) error {
					return edit.Align(tx, ed.sheet, keys, edit.UprightMiddle)
				})
				undone(b, ed)
			}
		})
	}
}

func BenchmarkNudge(b *testing.B) {
	for _, n := range []int{1, 20, 200} {
		b.Run(fmt.Sprintf("parts=%d", n), func(b *testing.B) {
			ed := bigSheet(b)
			ed.choose(block(ed, n)...)
			by := geom.Pt(geom.Grid, 0)
			for b.Loop() {
				by = by.Neg()
				ed.nudge(by)
				ed.sheetView.paint(ed.sheetView.cam.W, ed.sheetView.cam.H)
			}
		})
	}
}

// A move of the pointer with parts in hand, their wires following, and the frame
// that shows it.
func BenchmarkDrag(b *testing.B) {
	for _, n := range []int{1, 20, 200} {
		b.Run(fmt.Sprintf("parts=%d", n), func(b *testing.B) {
			ed := bigSheet(b)
			keys := block(ed, n)
			ed.choose(keys...)
			v := ed.sheetView
			v.fitTo(geom.RectOf(ed.doc().Part(keys[0].ID).Views[0].At))
			at := v.windowPoint(ed.doc().Body(ed.doc().Part(keys[0].ID), ed.doc().Part(keys[0].ID).Views[0]).Center())
			v.MouseDown(mouse(at, desktop.MouseButtonPrimary, 0))
			x := float32(0)
			for b.Loop() {
				if x += 9; x > 400 {
					x = 10
				}
				v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(x, x/2)}})
				v.paint(v.cam.W, v.cam.H)
			}
			b.StopTimer()
			if ed.preview == nil {
				b.Fatal("nothing is dragged")
			}
		})
	}
}

func BenchmarkDuplicate(b *testing.B) {
	for _, n := range []int{20, 200} {
		b.Run(fmt.Sprintf("parts=%d", n), func(b *testing.B) {
			ed := bigSheet(b)
			keys := block(ed, n)
			for b.Loop() {
				ed.choose(keys...)
				ed.actions.Find("edit.duplicate").Run()
				undone(b, ed)
			}
		})
	}
}

func BenchmarkDelete(b *testing.B) {
	ed := bigSheet(b)
	keys := block(ed, 200)
	for b.Loop() {
		ed.choose(keys...)
		ed.actions.Find("edit.delete").Run()
		undone(b, ed)
	}
}
