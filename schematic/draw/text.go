package draw

import (
	"strings"
	"unicode/utf8"
)

// Em sizes in mm. Capitals are 0.72 of them: 1.8 mm for designations, the
// least letter height of ISO 3098, and smaller for what is read up close.
const (
	sizeName  = 2.5 // designations
	sizeValue = 2.0 // labels and values
	sizeTitle = 1.9 // titles of own pins inside their box
	sizeWire  = 1.9 // wire labels
	sizePin   = 1.6 // pin names
	lineSpace = 1.25
)

// align says which point of a text's baseline is given.
type align uint8

const (
	atStart align = iota
	atMiddle
	atEnd
)

// up is the angle of text that reads upwards, from the right side of the sheet.
const up = 270

// textAt returns a text whose baseline starts, centres or ends at p.
func textAt(s string, p Point, a align, angle, size float64, bold bool, ink Ink) *Text {
	t := &Text{At: p, Angle: angle, Size: size, Bold: bold, Ink: ink, S: s}
	w := 0.0
	switch a {
	case atMiddle:
		w = Measure(s, size, bold) / 2
	case atEnd:
		w = Measure(s, size, bold)
	}
	dx, dy := t.dir()
	t.At = p.add(-w*dx, -w*dy)
	return t
}

// middleText returns a text whose capitals are centred on p.
func middleText(s string, p Point, angle, size float64, bold bool, ink Ink) *Text {
	t := textAt(s, p, atMiddle, angle, size, bold, ink)
	h := CapHeight(size) / 2
	dx, dy := t.dir()
	t.At = t.At.add(-h*dy, h*dx)
	return t
}

// dir returns the unit vector of the baseline.
func (t *Text) dir() (dx, dy float64) {
	switch t.Angle {
	case 90:
		return 0, 1
	case 180:
		return -1, 0
	case up:
		return 0, -1
	}
	return 1, 0
}

// Box returns the area the text takes in mm: its ink and its advance.
func (t *Text) Box() Box {
	w, ink := inkBox(t.S, t.Size, t.Bold)
	b := ink.extend(Point{0, 0}).extend(Point{w, 0})
	dx, dy := t.dir()
	turn := func(p Point) Point { return t.At.add(p.X*dx-p.Y*dy, p.X*dy+p.Y*dx) }
	return emptyBox().extend(turn(b.Min)).extend(turn(b.Max))
}

// inkBox returns the advance of a text and the box of what it blackens, the
// baseline starting at 0,0.
func inkBox(s string, size float64, bold bool) (float64, Box) {
	f := face(bold)
	x, b := 0.0, emptyBox()
	for _, r := range s {
		g := f.glyph(r)
		if !g.box.Empty() {
			b = b.extend(Point{x + g.box.Min.X, g.box.Min.Y}).extend(Point{x + g.box.Max.X, g.box.Max.Y})
		}
		x += g.advance
	}
	if !b.Empty() {
		b = Box{Point{b.Min.X * size, b.Min.Y * size}, Point{b.Max.X * size, b.Max.Y * size}}
	}
	return x * size, b
}

const ellipsis = "…"

// trim shortens a text to a width in mm, ending it with an ellipsis; where not
// even one letter fits it returns "".
func trim(s string, width, size float64, bold bool) string {
	f := face(bold)
	room := width/size - f.glyph('…').advance
	x, cut := 0.0, 0
	for i, r := range s {
		g := f.glyph(r)
		if x+g.advance <= room {
			cut = i + utf8.RuneLen(r)
			if r == utf8.RuneError {
				cut = i + 1 // a stray byte; its rest falls away
			}
		}
		if x += g.advance; x*size > width {
			if kept := strings.TrimRight(s[:cut], " "); kept != "" {
				return kept + ellipsis
			}
			return ""
		}
	}
	return s
}

// wrap breaks a text into lines no wider than width mm where it has spaces, and
// within a word that is wider alone: an address, say. Width 0 keeps the lines as
// they are. More than limit lines end in an ellipsis; limit 0 is no limit.
func wrap(s string, width, size float64, bold bool, limit int) []string {
	var lines []string
	for para := range strings.SplitSeq(strings.ReplaceAll(s, "\r\n", "\n"), "\n") {
		if width <= 0 {
			lines = append(lines, strings.TrimRight(para, " \t"))
			continue
		}
		line, wide, space := "", 0.0, Measure(" ", size, bold)
		for word := range strings.FieldsSeq(para) {
			w := Measure(word, size, bold)
			if line != "" && wide+space+w > width {
				lines = append(lines, line)
				line, wide = "", 0
			}
			if line != "" {
				line += " "
				wide += space
			}
			for w > width {
				n := fitting(word, width, size, bold)
				if n == len(word) {
					break // a single letter
				}
				lines = append(lines, word[:n])
				w -= Measure(word[:n], size, bold)
				word = word[n:]
			}
			line += word
			wide += w
		}
		lines = append(lines, line)
	}
	if limit > 0 && len(lines) > limit {
		lines = lines[:limit]
		lines[limit-1] = trim(lines[limit-1]+" "+ellipsis, width, size, bold)
	}
	return lines
}

// fitting returns the length of the beginning of a word that is no wider than
// width mm, of one letter at least.
func fitting(word string, width, size float64, bold bool) int {
	f, x := face(bold), 0.0
	for i, r := range word {
		if x += f.glyph(r).advance; i > 0 && x*size > width {
			return i
		}
	}
	return len(word)
}
