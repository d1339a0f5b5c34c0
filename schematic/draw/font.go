package draw

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// FontData returns the TrueType file that [Measure] and [Outline] speak of: Go
// Regular or Go Bold. The bytes are shared; do not write to them.
func FontData(bold bool) []byte {
	if bold {
		return gobold.TTF
	}
	return goregular.TTF
}

// Measure returns the width in mm of one line of text at an em size in mm: the
// sum of its advances. There is no kerning, so every output can agree with it.
func Measure(s string, size float64, bold bool) float64 {
	f := face(bold)
	sum := 0.0
	for _, r := range s {
		sum += f.glyph(r).advance
	}
	return sum * size
}

// CapHeight returns the height of capital letters above the baseline in mm.
func CapHeight(size float64) float64 { return face(false).capHeight * size }

// Ascent returns how far text reaches above the baseline in mm, accents of
// capitals included.
func Ascent(size float64) float64 { return face(false).ascent * size }

// Descent returns how far text reaches below the baseline in mm.
func Descent(size float64) float64 { return face(false).descent * size }

// Outline returns the filled shape of a rune and its advance, both in em, the
// origin on the baseline and y down; the winding rule is non-zero. A rune that
// the font lacks is an open box, so that it never vanishes. The slice is
// shared; do not write to it.
func Outline(r rune, bold bool) (path []Seg, advance float64) {
	g := face(bold).glyph(r)
	return g.path, g.advance
}

// Has reports whether the font has a shape for the rune of its own.
func Has(r rune, bold bool) bool {
	_, ok := face(bold).glyphs[plain(r)]
	return ok
}

type glyph struct {
	path    []Seg
	box     Box // of the path
	advance float64
}

// typeface is a font read once in full and never written again.
type typeface struct {
	glyphs                     map[rune]glyph
	ascii                      [128]glyph
	missing                    glyph
	capHeight, ascent, descent float64
}

var (
	regularFace = sync.OnceValue(func() *typeface { return readFace(goregular.TTF) })
	boldFace    = sync.OnceValue(func() *typeface { return readFace(gobold.TTF) })
)

func face(bold bool) *typeface {
	if bold {
		return boldFace()
	}
	return regularFace()
}

func (f *typeface) glyph(r rune) glyph {
	if r >= 0 && r < 128 {
		return f.ascii[r]
	}
	if g, ok := f.glyphs[plain(r)]; ok {
		return g
	}
	return f.missing
}

// plain maps runes that are drawn like others: the ohm sign is by its own
// standard the capital omega, odd spaces are spaces.
func plain(r rune) rune {
	switch r {
	case '\u2126':
		return '\u03a9'
	case '\t', '\n', '\r', '\u00a0', '\u2007', '\u2009', '\u202f':
		return ' '
	}
	return r
}

// readFace reads every glyph of the basic plane. The fonts are part of the
// program, so a font that cannot be read cannot happen.
func readFace(ttf []byte) *typeface {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("draw: built-in font: " + err.Error())
	}
	var buf sfnt.Buffer
	em := fixed.I(int(f.UnitsPerEm()))
	t := &typeface{glyphs: make(map[rune]glyph, f.NumGlyphs()), missing: missingGlyph()}
	for r := rune(' '); r < 0xFFF0; r++ {
		i, err := f.GlyphIndex(&buf, r)
		if err != nil || i == 0 {
			continue
		}
		segs, err := f.LoadGlyph(&buf, i, em, nil)
		if err != nil {
			continue
		}
		g := glyph{path: emPath(segs, float64(em))}
		g.box = pathBox(g.path)
		if adv, err := f.GlyphAdvance(&buf, i, em, font.HintingNone); err == nil {
			g.advance = float64(adv) / float64(em)
		}
		t.glyphs[r] = g
	}
	for r := range t.ascii {
		g, ok := t.glyphs[plain(rune(r))]
		if !ok {
			g = t.missing
		}
		t.ascii[r] = g
	}
	// The tables of a font may lie about heights; its letters cannot.
	t.capHeight = -pathBox(t.glyphs['H'].path).Min.Y
	t.ascent = -pathBox(t.glyphs['\u00c5'].path).Min.Y
	t.descent = pathBox(t.glyphs['j'].path).Max.Y
	return t
}

// emPath returns a glyph of em units to the em as a path for an em of 1.
func emPath(segs sfnt.Segments, em float64) []Seg {
	out := make([]Seg, 0, len(segs)+4)
	pt := func(p fixed.Point26_6) Point { return Point{float64(p.X) / em, float64(p.Y) / em} }
	var at Point
	for i, s := range segs {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				out = append(out, Seg{Verb: Close})
			}
			at = pt(s.Args[0])
			out = append(out, Seg{Verb: MoveTo, P: at})
		case sfnt.SegmentOpLineTo:
			at = pt(s.Args[0])
			out = append(out, Seg{Verb: LineTo, P: at})
		case sfnt.SegmentOpQuadTo:
			q, p := pt(s.Args[0]), pt(s.Args[1])
			out = append(out, Seg{Verb: CubeTo, C1: toward(at, q, 2./3), C2: toward(p, q, 2./3), P: p})
			at = p
		case sfnt.SegmentOpCubeTo:
			at = pt(s.Args[2])
			out = append(out, Seg{Verb: CubeTo, C1: pt(s.Args[0]), C2: pt(s.Args[1]), P: at})
		}
	}
	if len(out) > 0 {
		out = append(out, Seg{Verb: Close})
	}
	return out
}

func missingGlyph() glyph {
	g := glyph{advance: 0.6, path: []Seg{
		{Verb: MoveTo, P: Point{0.05, 0}}, {Verb: LineTo, P: Point{0.55, 0}},
		{Verb: LineTo, P: Point{0.55, -0.72}}, {Verb: LineTo, P: Point{0.05, -0.72}}, {Verb: Close},
		{Verb: MoveTo, P: Point{0.11, -0.06}}, {Verb: LineTo, P: Point{0.11, -0.66}},
		{Verb: LineTo, P: Point{0.49, -0.66}}, {Verb: LineTo, P: Point{0.49, -0.06}}, {Verb: Close},
	}}
	g.box = pathBox(g.path)
	return g
}
