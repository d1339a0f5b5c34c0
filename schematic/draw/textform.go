package draw

import (
	"fmt"
	"image/color"
	"strconv"
	"strings"
)

// String returns the word for an ink in the text form.
func (k Ink) String() string {
	words := [InkCount]string{"symbol", "text", "faint", "frame", "paper", "fill", "rim", "joint",
		"error", "warn", "info", "trace", "current", "bare", "own"}
	if k < InkCount {
		return words[k]
	}
	return "ink" + strconv.Itoa(int(k))
}

// Text returns the list in a stable form for golden tests: the size, then one
// mark a line in painting order, millimetres with two decimals. Owners are
// named by type and the last eight digits of their ID.
func (l *List) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "sheet %s %s\n", num(l.Size.X), num(l.Size.Y))
	for _, m := range l.Marks {
		switch op := m.Op.(type) {
		case *Stroke:
			fmt.Fprintf(&b, "stroke %s w%s", inkText(op.Ink, op.Color), num(op.Width))
			if len(op.Dash) > 0 {
				b.WriteString(" dash")
				for _, d := range op.Dash {
					b.WriteString(" " + num(d))
				}
				if op.Offset != 0 {
					b.WriteString(" from " + num(op.Offset))
				}
			}
			writePath(&b, op.Path)
		case *Fill:
			fmt.Fprintf(&b, "fill %s", inkText(op.Ink, op.Color))
			writePath(&b, op.Path)
		case *Text:
			fmt.Fprintf(&b, "text %s %s,%s size %s", inkText(op.Ink, op.Color), num(op.At.X), num(op.At.Y), num(op.Size))
			if op.Angle != 0 {
				b.WriteString(" angle " + num(op.Angle))
			}
			if op.Bold {
				b.WriteString(" bold")
			}
			b.WriteString(" " + strconv.Quote(op.S))
		}
		if m.Owner.Type != 0 {
			id := m.Owner.ID.String()
			fmt.Fprintf(&b, " | %s %s", m.Owner.Type, id[len(id)-8:])
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func inkText(k Ink, c color.RGBA) string {
	if k == InkOwn {
		return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B)
	}
	return k.String()
}

func writePath(b *strings.Builder, path []Seg) {
	for _, s := range path {
		switch s.Verb {
		case MoveTo:
			b.WriteString(" M" + pair(s.P))
		case LineTo:
			b.WriteString(" L" + pair(s.P))
		case CubeTo:
			b.WriteString(" C" + pair(s.C1) + " " + pair(s.C2) + " " + pair(s.P))
		case Close:
			b.WriteString(" Z")
		}
	}
}

func pair(p Point) string { return num(p.X) + "," + num(p.Y) }

// num prints two decimals, never "-0.00".
func num(v float64) string {
	s := strconv.FormatFloat(v, 'f', 2, 64)
	if s == "-0.00" {
		return "0.00"
	}
	return s
}
