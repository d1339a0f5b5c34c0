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

// thinnestMM is the width of lines that have none.
const thinnestMM = 0.05

// penWidth returns the width in mm at which files write a stroke; ok is false
// for strokes that cannot be written.
func penWidth(s *draw.Stroke) (width float64, ok bool) {
	if !(s.Width >= 0) || !finite(s.Width) || !finitePath(s.Path) || len(s.Path) == 0 {
		return 0, false
	}
	return max(s.Width, thinnestMM), true
}

// writable reports whether a text has a place, a size and something to read.
func writable(t *draw.Text) bool {
	return finite(t.At.X) && finite(t.At.Y) && finite(t.Size) && t.Size > 0 && t.S != ""
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
