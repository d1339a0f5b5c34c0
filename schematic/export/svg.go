package export

import (
	"bufio"
	"context"
	"fmt"
	"html"
	"image/color"
	"io"
	"math"
	"strconv"

	"loomwright/schematic/draw"
)

// SVGOptions say how a sheet becomes SVG. The zero value is usable.
type SVGOptions struct {
	Title   string  // for readers and tooltips; "Sheet" if empty
	Palette Palette // zero is Print

	// TextAsOutlines writes shapes instead of text: it looks the same
	// everywhere but cannot be searched. Without it text names the Go fonts,
	// and where they are not installed another face is fitted to the width; a
	// viewer that cannot do that takes one that is as wide.
	TextAsOutlines bool
}

// textFaces are the typefaces of text, the first one installed is taken. Not all
// viewers fit text to its textLength, so what stands in for the Go fonts must
// not be wider, or labels run into each other: Helvetica and what shares its
// widths, then one that is about as wide. The plain sans-serif often is not.
const textFaces = `Go,"Go Regular",Helvetica,Arial,"Liberation Sans","Nimbus Sans","DejaVu Sans Condensed",sans-serif`

// inkClasses name the inks in the style sheet of an SVG file.
var inkClasses = [draw.InkCount]string{
	draw.InkSymbol: "symbol", draw.InkText: "text", draw.InkFaint: "faint",
	draw.InkFrame: "frame", draw.InkPaper: "paper", draw.InkFill: "body",
	draw.InkWireRim: "rim", draw.InkJoint: "joint", draw.InkError: "error",
	draw.InkWarn: "warn", draw.InkInfo: "info", draw.InkTrace: "trace",
	draw.InkCurrent: "current", draw.InkBare: "bare",
}

// SVG writes a sheet as SVG 1.1 in millimetres. The same sheet gives the same
// bytes.
func SVG(ctx context.Context, out io.Writer, l *draw.List, o SVGOptions) error {
	if err := checkSize(l); err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	if o.Palette == (Palette{}) {
		o.Palette = Print()
	}
	if o.Title == "" {
		o.Title = "Sheet"
	}
	s := &svgWriter{out: bufio.NewWriter(out), o: o}
	s.head(l)
	for i := range l.Marks {
		if i%1024 == 0 && ctx.Err() != nil {
			return fmt.Errorf("svg: %w", ctx.Err())
		}
		switch op := l.Marks[i].Op.(type) {
		case *draw.Stroke:
			s.stroke(op)
		case *draw.Fill:
			s.fill(op)
		case *draw.Text:
			s.text(op)
		}
	}
	s.print("</svg>\n")
	// bufio keeps the first error of all writes.
	if err := s.out.Flush(); err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	return nil
}

type svgWriter struct {
	out *bufio.Writer
	o   SVGOptions
	num []byte
}

func (s *svgWriter) print(parts ...string) {
	for _, p := range parts {
		s.out.WriteString(p)
	}
}

// n writes a number with at most three decimals: micrometres.
func (s *svgWriter) n(v float64) {
	if math.Abs(v) < 0.0005 {
		v = 0 // never "-0"
	}
	s.num = strconv.AppendFloat(s.num[:0], v, 'f', 3, 64)
	end := len(s.num)
	for s.num[end-1] == '0' {
		end--
	}
	if s.num[end-1] == '.' {
		end--
	}
	s.out.Write(s.num[:end])
}

// attr writes an attribute with a number.
func (s *svgWriter) attr(name string, v float64) {
	s.print(" ", name, `="`)
	s.n(v)
	s.print(`"`)
}

func (s *svgWriter) head(l *draw.List) {
	s.print(`<?xml version="1.0" encoding="UTF-8"?>`, "\n",
		`<svg xmlns="http://www.w3.org/2000/svg" version="1.1" role="img" width="`)
	s.n(l.Size.X)
	s.print(`mm" height="`)
	s.n(l.Size.Y)
	s.print(`mm" viewBox="0 0 `)
	s.n(l.Size.X)
	s.print(" ")
	s.n(l.Size.Y)
	s.print("\">\n<title>", html.EscapeString(plainText(s.o.Title)), "</title>\n<style>\n",
		".l{fill:none;stroke-linecap:round;stroke-linejoin:round}\n",
		".d{stroke-linecap:butt}\n",
		"text{font-family:", textFaces, ";white-space:pre}\n",
		".b{font-weight:bold}\n")
	for i, name := range inkClasses {
		if name != "" {
			hex := hexColor(s.o.Palette.Inks[i])
			s.print(".l.", name, "{stroke:", hex, "} .f.", name, "{fill:", hex, "}\n")
		}
	}
	s.print("</style>\n<rect class=\"f paper\"")
	s.attr("width", l.Size.X)
	s.attr("height", l.Size.Y)
	s.print("/>\n")
}

func hexColor(c color.RGBA) string {
	k := ink(c)
	return fmt.Sprintf("#%02x%02x%02x", k.rb&0xff, k.ga&0xff, k.rb>>16)
}

// class writes the class attribute and, for colours of their own, the paint.
func (s *svgWriter) class(kind, paint string, k draw.Ink, own color.RGBA) {
	if k < draw.InkCount && k != draw.InkOwn {
		s.print(` class="`, kind, " ", inkClasses[k], `"`)
		return
	}
	s.print(` class="`, kind, `" `, paint, `="`, hexColor(own), `"`)
	if own.A < 0xff {
		s.attr(paint+"-opacity", float64(own.A)/0xff)
	}
}

func (s *svgWriter) stroke(op *draw.Stroke) {
	if op == nil {
		return
	}
	width, ok := penWidth(op)
	if !ok {
		return
	}
	dash := dashMM(op)
	kind := "l"
	if dash != nil {
		kind = "l d"
	}
	s.print("<path")
	s.class(kind, "stroke", op.Ink, op.Color)
	s.attr("stroke-width", width)
	if dash != nil {
		s.print(` stroke-dasharray="`)
		for i, d := range dash {
			if i > 0 {
				s.print(" ")
			}
			s.n(d)
		}
		s.print(`"`)
		if start := dashStart(op, dash); start > 0 {
			s.attr("stroke-dashoffset", start)
		}
	}
	s.path(op.Path, func(p draw.Point) draw.Point { return p })
	s.print("/>\n")
}

func (s *svgWriter) fill(op *draw.Fill) {
	if op == nil || !writablePath(op.Path) {
		return
	}
	s.print("<path")
	s.class("f", "fill", op.Ink, op.Color)
	s.path(op.Path, func(p draw.Point) draw.Point { return p })
	s.print("/>\n")
}

// path writes the d attribute.
func (s *svgWriter) path(path []draw.Seg, to func(draw.Point) draw.Point) {
	s.print(` d="`)
	s.segs(path, to)
	s.print(`"`)
}

func (s *svgWriter) segs(path []draw.Seg, to func(draw.Point) draw.Point) {
	begun := false // a path must begin with a move
	for i := range path {
		seg := &path[i]
		switch {
		case seg.Verb == draw.Close:
			if begun {
				s.print("Z")
			}
			continue
		case seg.Verb > draw.Close:
			continue
		case seg.Verb == draw.MoveTo || !begun:
			s.print("M")
		case seg.Verb == draw.LineTo:
			s.print("L")
		default:
			s.print("C")
			s.point(to(seg.C1))
			s.print(" ")
			s.point(to(seg.C2))
			s.print(" ")
		}
		s.point(to(seg.P))
		begun = true
	}
}

func (s *svgWriter) point(p draw.Point) {
	s.n(p.X)
	s.print(" ")
	s.n(p.Y)
}

func (s *svgWriter) text(t *draw.Text) {
	if t == nil || !writableText(t) {
		return
	}
	if s.o.TextAsOutlines {
		s.outlines(t)
		return
	}
	kind := "f"
	if t.Bold {
		kind = "b f"
	}
	s.print("<text")
	s.class(kind, "fill", t.Ink, t.Color)
	s.attr("x", t.At.X)
	s.attr("y", t.At.Y)
	s.attr("font-size", t.Size)
	if w := draw.Measure(t.S, t.Size, t.Bold); w > 0 {
		s.attr("textLength", w)
		s.print(` lengthAdjust="spacingAndGlyphs"`)
	}
	if quarter := turnOf(t.Angle); quarter != 0 {
		s.print(` transform="rotate(`)
		s.n(float64(quarter) * 90)
		s.print(" ")
		s.point(t.At)
		s.print(`)"`)
	}
	s.print(` xml:space="preserve">`, html.EscapeString(plainText(t.S)), "</text>\n")
}

func (s *svgWriter) outlines(t *draw.Text) {
	s.print("<path")
	s.class("f", "fill", t.Ink, t.Color)
	s.print(` aria-label="`, html.EscapeString(plainText(t.S)), `" d="`)
	quarter := turnOf(t.Angle)
	pen := 0.0
	for _, r := range t.S {
		path, advance := draw.Outline(r, t.Bold)
		s.segs(path, func(p draw.Point) draw.Point {
			x, y := quarter.vec(pen+p.X*t.Size, p.Y*t.Size)
			return draw.Point{X: t.At.X + x, Y: t.At.Y + y}
		})
		pen += advance * t.Size
	}
	s.print("\"/>\n")
}
