package export

import (
	"math"
	"strings"

	"loomwright/schematic/draw"
)

// plainText returns text as files may carry it: the ohm sign as the capital
// omega that it equals, every kind of blank as a space, and the replacement
// character for what has no place in a line. draw.Measure treats all of these
// alike, so the width stays the same.
func plainText(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\u2126':
			return '\u03a9'
		case r == '\t', r == '\n', r == '\r', r == '\u00a0', r == '\u2007', r == '\u2009', r == '\u202f':
			return ' '
		case r < ' ', r >= 0x7f && r < 0xa0, r == '\ufffe', r == '\uffff':
			return '\ufffd'
		}
		return r
	}, s)
}

// Marks that files can hold, in mm: thinner lines are drawn this wide, marks
// that reach further out are left out.
const (
	thinnestMM = 0.05
	furthestMM = 1e6
)

// penWidth returns the width in mm at which files write a stroke; ok is false
// for strokes that cannot be written.
func penWidth(s *draw.Stroke) (width float64, ok bool) {
	if !(s.Width >= 0 && s.Width <= furthestMM) || !writablePath(s.Path) {
		return 0, false
	}
	return max(s.Width, thinnestMM), true
}

func writablePath(path []draw.Seg) bool { return len(path) > 0 && bounded(path, furthestMM) }

// writableText reports whether a text has a place, a size and something to read.
func writableText(t *draw.Text) bool {
	return math.Abs(t.At.X) <= furthestMM && math.Abs(t.At.Y) <= furthestMM &&
		t.Size > 0 && t.Size <= furthestMM && t.S != ""
}

// dashStart returns where in the pattern a dashed stroke begins, in mm, 0 or
// above, as all file formats want it.
func dashStart(s *draw.Stroke, dash []float64) float64 {
	period := 0.0
	for _, d := range dash {
		period += d
	}
	if !finite(s.Offset) || period <= 0 {
		return 0
	}
	at := math.Mod(s.Offset, period)
	if at < 0 {
		at += period
	}
	return at
}
