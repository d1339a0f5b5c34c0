package ui

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

func TestAFileIsNamedAfterTheDrawing(t *testing.T) {
	for title, want := range map[string]string{
		"Engine sub-harness":   "engine-sub-harness",
		"":                     "untitled",
		"../..":                "untitled",
		" Fan / relay: plate ": "fan-relay-plate",
		"Kühler 2":             "kühler-2",
		"one two three four five six seven eight nine ten eleven twelve thirteen": "one-two-three-four-five-six-seven-eight-nine-ten-eleven",
	} {
		assert.Equal(t, want, fileNameOf(title))
	}
}

func TestASheetWhollyInSightStaysSoWithOtherPaper(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.fit")
	before := r.sheetView.cam.PxPerMM
	grow := func() {
		s := r.doc().Sheet(r.sheet)
		assert.NoError(t, r.try("larger paper", func(tx *edit.Tx) error {
			return edit.SetSheet(tx, s.ID, func(s *schematic.Sheet) { a := s.Area(); s.Width, s.Height = 2*a.Width(), 2*a.Height() })
		}))
	}
	grow()
	assert.InDelta(t, before/2, r.sheetView.cam.PxPerMM, before/10)
	r.do("view.in")
	close := r.sheetView.cam.PxPerMM
	grow()
	assert.Equal(t, close, r.sheetView.cam.PxPerMM, "a part of the sheet in sight stays")
}
