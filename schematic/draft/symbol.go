package draft

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Strokes is the list of what the picture in hand is drawn of: see [Draft.Show].
func (d *Draft) Strokes() *List {
	cols := []Column{
		{"Shape", "line, rect, circle, arc, polygon or text", 9},
		{"Points", "In mm to the right and down, commas between points: \"0 -7.5, 0 -2.5\". A rect has two corners; circle, arc and text their middle", 34},
		{"Radius", "Of a circle or arc, mm", 8},
		{"From, sweep", "Of an arc, degrees clockwise from the right: \"180, 90\"", 12},
		{"Text", "", 12},
		{"Height", "Of a text, mm", 8},
		{"Fill", "solid, body or paper; empty is none", 8},
		{"Weight", "thin or bold; empty is the usual; dashed may be added", 12},
		{"Piece", "The piece of the symbol, where there are several", 10},
	}
	piece := func() string { return d.Shown().Piece }
	return &List{
		Columns: cols,
		Len:     func() int { return len(*d.shapes()) },
		Text:    func(line, col int) string { return strokeText(&(*d.shapes())[line], piece(), col) },
		set: func(line, col int, text string) error {
			if col == 8 {
				return d.movePiece(line, text)
			}
			return setStroke(&(*d.shapes())[line], col, text)
		},
		add:    func() { d.AddStroke("line") },
		remove: func(line int) { *d.shapes() = slices.Delete(*d.shapes(), line, line+1) },
		swap: func(a, b int) {
			s := *d.shapes()
			s[a], s[b] = s[b], s[a]
		},
	}
}

// Shapes lists what a stroke can be.
func Shapes() []string { return []string{"line", "rect", "circle", "arc", "polygon", "text"} }

// AddStroke appends a shape to the picture in hand, in a size to be seen.
func (d *Draft) AddStroke(shape string) {
	at := d.shapes()
	*at = append(*at, freshStroke(shape))
}

func freshStroke(shape string) schematic.Shape {
	s := schematic.Shape{Type: shape, Points: []geom.Point{{}}}
	const r = 2 * geom.Grid
	switch shape {
	case "line":
		s.Points = []geom.Point{{X: 0, Y: -r}, {X: 0, Y: r}}
	case "rect":
		s.Points = []geom.Point{{X: -r, Y: -r}, {X: r, Y: r}}
	case "polygon":
		s.Points = []geom.Point{{X: -r, Y: r}, {X: 0, Y: -r}, {X: r, Y: r}}
	case "circle":
		s.Radius = r
	case "arc":
		s.Radius, s.Start, s.Sweep = r, 180, 180
	case "text":
		s.Text, s.Size = "T", 30
	}
	return s
}

func strokeText(s *schematic.Shape, piece string, col int) string {
	switch col {
	case 0:
		return s.Type
	case 1:
		return pointsText(s.Points)
	case 2:
		return mmText(s.Radius)
	case 3:
		if s.Type == "arc" {
			return fmt.Sprintf("%g, %g", s.Start, s.Sweep)
		}
		return ""
	case 4:
		return s.Text
	case 5:
		return mmText(s.Size)
	case 6:
		return s.Fill
	case 7:
		w := s.Weight
		if s.Dashed {
			w = strings.TrimSpace(w + " dashed")
		}
		return w
	}
	return piece
}

func setStroke(s *schematic.Shape, col int, text string) error {
	switch col {
	case 0:
		shape, err := oneOf("a shape", strings.ToLower(text), Shapes())
		if err != nil {
			return err
		}
		if shape != s.Type {
			fresh := freshStroke(shape)
			fresh.Weight, fresh.Dashed = s.Weight, s.Dashed
			*s = fresh
		}
	case 1:
		least, most := pointCount(s.Type)
		pts, err := readPoints(text, least, most)
		if err != nil {
			return err
		}
		s.Points = pts
	case 2:
		if s.Type != "circle" && s.Type != "arc" {
			return fmt.Errorf("a %s has no radius", s.Type)
		}
		return setMM(&s.Radius, text)
	case 3:
		return setSweep(s, text)
	case 4:
		if s.Type != "text" {
			return fmt.Errorf("a %s has no text: add a text to the symbol", s.Type)
		}
		s.Text = text
	case 5:
		if s.Type != "text" {
			return fmt.Errorf("only a text has a height")
		}
		return setMM(&s.Size, text)
	case 6:
		return setFill(s, text)
	case 7:
		return setWeight(s, text)
	}
	return nil
}

// pointCount is how many points a shape has, at least and at most.
func pointCount(shape string) (least, most int) {
	switch shape {
	case "line":
		return 2, mostPoints
	case "polygon":
		return 3, mostPoints
	case "rect":
		return 2, 2
	}
	return 1, 1
}

func setSweep(s *schematic.Shape, text string) error {
	if s.Type != "arc" {
		return fmt.Errorf("only an arc has a sweep")
	}
	from, sweep, two := strings.Cut(text, ",")
	a, err1 := strconv.ParseFloat(strings.TrimSpace(from), 64)
	b, err2 := strconv.ParseFloat(strings.TrimSpace(sweep), 64)
	// Written so that NaN, which ParseFloat reads too, does not pass.
	within := math.Abs(a) <= 360 && math.Abs(b) <= 360 && b != 0
	if !two || err1 != nil || err2 != nil || !within {
		return fmt.Errorf("%q: write where the arc begins and how far it sweeps, in degrees, as in 180, 90", text)
	}
	s.Start, s.Sweep = a, b
	return nil
}

func setFill(s *schematic.Shape, text string) error {
	if text != "" {
		var err error
		if text, err = oneOf("a fill", text, []string{"solid", "body", "paper"}); err != nil {
			return err
		}
		if s.Type == "line" || s.Type == "arc" || s.Type == "text" {
			return fmt.Errorf("a %s cannot be filled", s.Type)
		}
	}
	s.Fill = text
	return nil
}

func setWeight(s *schematic.Shape, text string) error {
	weight, dashed := "", false
	for _, w := range strings.Fields(text) {
		word, err := oneOf("a weight", w, []string{"thin", "bold", "dashed"})
		if err != nil {
			return err
		}
		if word == "dashed" {
			dashed = true
		} else {
			weight = word
		}
	}
	s.Weight, s.Dashed = weight, dashed
	return nil
}

// movePiece puts a stroke of the piece in hand into another one.
func (d *Draft) movePiece(line int, to string) error {
	from := d.Shown()
	if from.Role != "" {
		if to == "" {
			return nil
		}
		return fmt.Errorf("strokes at the pins of a role stand in no piece")
	}
	if !d.hasPiece(to) {
		return fmt.Errorf("the symbol has no piece %q", to)
	}
	if to == from.Piece {
		return nil
	}
	moved := (*d.shapes())[line]
	*d.shapes() = slices.Delete(*d.shapes(), line, line+1)
	for i := range d.k.Sections {
		if d.k.Sections[i].Name == to {
			d.k.Sections[i].Shapes = append(d.k.Sections[i].Shapes, moved)
		}
	}
	return nil
}

// maxMM bounds what a symbol may reach, mm.
const maxMM = 200

func mmText(v int) string {
	if v == 0 {
		return ""
	}
	return num(v)
}

func num(v int) string { return strconv.FormatFloat(float64(v)/geom.PerMM, 'f', -1, 64) }

func setMM(to *int, text string) error {
	v, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(text), " mm"), 64)
	if err != nil || !(v > 0 && v <= maxMM) {
		return fmt.Errorf("%q: write millimetres, up to %d", text, maxMM)
	}
	*to = max(1, int(math.Round(v*geom.PerMM)))
	return nil
}

func pointText(p geom.Point) string { return num(p.X) + " " + num(p.Y) }

func pointsText(ps []geom.Point) string {
	texts := make([]string, len(ps))
	for i, p := range ps {
		texts[i] = pointText(p)
	}
	return strings.Join(texts, ", ")
}

// readPoints reads points in mm: "0 -7.5, 0 -2.5".
func readPoints(text string, least, most int) ([]geom.Point, error) {
	var pts []geom.Point
	for _, pair := range strings.Split(text, ",") {
		f := strings.Fields(strings.ReplaceAll(pair, "\u2212", "-"))
		if len(f) != 2 {
			return nil, fmt.Errorf("%q is not a point: write millimetres to the right and down, as in 2.5 -7.5", strings.TrimSpace(pair))
		}
		var v [2]int
		for i := range v {
			x, err := strconv.ParseFloat(f[i], 64)
			if err != nil || !(math.Abs(x) <= maxMM) {
				return nil, fmt.Errorf("%q is not a number of millimetres within ±%d", f[i], maxMM)
			}
			v[i] = int(math.Round(x * geom.PerMM))
		}
		pts = append(pts, geom.Pt(v[0], v[1]))
	}
	if len(pts) < least || len(pts) > most {
		many := map[bool]string{true: "1 point", false: fmt.Sprintf("%d points", len(pts))}[len(pts) == 1]
		if least == most {
			return nil, fmt.Errorf("%s: it takes %d", many, least)
		}
		return nil, fmt.Errorf("%s: it takes %d to %d", many, least, most)
	}
	return pts, nil
}
