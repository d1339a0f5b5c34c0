package export

import (
	"fmt"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/draw"
)

// wild makes lists that no sheet should hold.
func wild(rnd *rand.Rand) *draw.List {
	values := []float64{0, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, 1e-300, 1e9, -1e9, math.MaxFloat64}
	number := func() float64 {
		if rnd.IntN(3) == 0 {
			return values[rnd.IntN(len(values))]
		}
		return rnd.Float64()*400 - 100
	}
	point := func() draw.Point { return draw.Point{X: number(), Y: number()} }
	path := func() (out []draw.Seg) {
		for range rnd.IntN(8) {
			out = append(out, draw.Seg{Verb: draw.Verb(rnd.IntN(6)), C1: point(), C2: point(), P: point()})
		}
		return out
	}
	tint := func() color.RGBA {
		return color.RGBA{uint8(rnd.IntN(256)), uint8(rnd.IntN(256)), uint8(rnd.IntN(256)), uint8(rnd.IntN(256))}
	}
	l := &draw.List{Size: point()}
	texts := []string{"", "W1", "\xff\xfe", "a\x00b\nc", "𝄞 Ω \u2126", "\u202e<&>\"'"}
	for range rnd.IntN(40) {
		var op draw.Op
		ink := draw.Ink(rnd.IntN(int(draw.InkCount) + 3))
		switch rnd.IntN(7) {
		case 0, 1, 2:
			s := &draw.Stroke{Path: path(), Width: number(), Ink: ink, Color: tint(), Offset: number()}
			for range rnd.IntN(4) {
				s.Dash = append(s.Dash, number())
			}
			op = s
		case 3, 4:
			op = &draw.Fill{Path: path(), Ink: ink, Color: tint()}
		case 5:
			op = &draw.Text{At: point(), Angle: number(), Size: number(), Bold: rnd.IntN(2) == 0, Ink: ink, Color: tint(), S: texts[rnd.IntN(len(texts))]}
		default:
			op = []draw.Op{nil, (*draw.Stroke)(nil), (*draw.Fill)(nil), (*draw.Text)(nil)}[rnd.IntN(4)]
		}
		bound := draw.Box{Min: point(), Max: point()}
		if rnd.IntN(2) == 0 {
			bound = draw.Box{Min: draw.Point{X: -1e300, Y: -1e300}, Max: draw.Point{X: 1e300, Y: 1e300}}
		}
		owner := schematic.Key{Type: schematic.TypePart, ID: schematic.ID{byte(rnd.IntN(3))}} // its lines may be painted as a blot
		l.Marks = append(l.Marks, draw.Mark{Op: op, Bound: bound, Owner: owner})
	}
	return l
}

func FuzzPaint(f *testing.F) {
	for i := range uint64(100) {
		f.Add(i, 1.0, 0.0, 0.0)
	}
	f.Add(uint64(1), math.NaN(), 1e300, -1e300)
	f.Add(uint64(2), 1e300, 0.0, 5.0)
	f.Add(uint64(3), 1e-300, 7.0, 5.0)
	f.Add(uint64(4), 900.0, 100.0, 50.0)
	f.Fuzz(func(t *testing.T, seed uint64, zoom, x, y float64) {
		l, pal := wild(rand.New(rand.NewPCG(seed, 1))), Dark()
		v := View{PxPerMM: zoom, OriginMM: draw.Point{X: x, Y: y}, W: 200, H: 150, Dots: seed%2 == 0, Exact: seed%3 == 0}
		img := paint(l, v, pal)
		for i := 3; i < len(img.Pix); i += 4 {
			if img.Pix[i] != 255 {
				t.Fatal(fmt.Errorf("seed %d: pixel %d is not opaque", seed, i/4))
			}
		}
	})
}
