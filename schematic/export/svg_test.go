package export

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/png"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/draw"
)

func svgOf(t *testing.T, l *draw.List, o SVGOptions) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, SVG(t.Context(), &out, l, o))
	return out.String()
}

// elements reads an SVG file as XML and fails where it is not well-formed.
func elements(t *testing.T, svg string) (starts []xml.StartElement, texts []string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(svg))
	depth := []string{}
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return starts, texts
		}
		require.NoError(t, err)
		switch tok := tok.(type) {
		case xml.StartElement:
			starts = append(starts, tok.Copy())
			depth = append(depth, tok.Name.Local)
		case xml.EndElement:
			depth = depth[:len(depth)-1]
		case xml.CharData:
			if n := len(depth); n > 0 && depth[n-1] == "text" {
				texts = append(texts, string(tok))
			}
		}
	}
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func TestSVGIsInMillimetres(t *testing.T) {
	starts, _ := elements(t, svgOf(t, &newSheet(210.5, 148).list, SVGOptions{Title: "Fan & <lamps>"}))
	root := starts[0]
	assert.Equal(t, "http://www.w3.org/2000/svg", root.Name.Space)
	assert.Equal(t, "210.5mm", attr(root, "width"))
	assert.Equal(t, "148mm", attr(root, "height"))
	assert.Equal(t, "0 0 210.5 148", attr(root, "viewBox"))
	assert.Contains(t, svgOf(t, sample(), SVGOptions{Title: "Fan & <lamps>"}), "<title>Fan &amp; &lt;lamps&gt;</title>")
}

func TestSVGText(t *testing.T) {
	b := newSheet(100, 100)
	b.text(10, 20, 3, 0, draw.InkText, `a<b>&"c"  d`)
	b.text(30, 40, 3, 270, draw.InkFaint, "2.2 k\u2126 \x00\xff")
	starts, texts := elements(t, svgOf(t, &b.list, SVGOptions{}))
	assert.Equal(t, []string{`a<b>&"c"  d`, "2.2 kΩ \ufffd\ufffd"}, texts)
	var found []xml.StartElement
	for _, e := range starts {
		if e.Name.Local == "text" {
			found = append(found, e)
		}
	}
	require.Len(t, found, 2)
	length, err := strconv.ParseFloat(attr(found[0], "textLength"), 64)
	require.NoError(t, err)
	assert.InDelta(t, draw.Measure(`a<b>&"c"  d`, 3, true), length, 0.001, "other fonts are fitted to our width")
	assert.Equal(t, "rotate(270 30 40)", attr(found[1], "transform"))

	outlines := svgOf(t, &b.list, SVGOptions{TextAsOutlines: true})
	_, texts = elements(t, outlines)
	assert.Empty(t, texts)
	assert.NotContains(t, outlines, "<text")
}

// TestSVGStandInFaceIsNoWider compares with the widths of Helvetica, which the PDF
// library holds as one of the 14 standard fonts (ISO 32000-1, 9.6.2.2): viewers
// that leave textLength out must not run labels into each other.
func TestSVGStandInFaceIsNoWider(t *testing.T) {
	assert.Regexp(t, `text\{font-family:Go,"Go Regular",Helvetica,Arial,.*,sans-serif;`, svgOf(t, sample(), SVGOptions{}))
	pdf := fpdf.New("P", "mm", "A4", "")
	ours, theirs := 0.0, 0.0
	for _, c := range []struct {
		text string
		bold bool
	}{
		{"W137 2.5 RD/YE", false}, {"engine control unit", false}, {"cabin half", false}, {"switched +", false},
		{"permanent +", false}, {"fan relay, left", false}, {"120 A", false}, {"GND2", true}, {"SP12", true}, {"X11", true},
		{"Starting and charging", true}, {draw.Caution, false},
	} {
		pdf.SetFont("Helvetica", map[bool]string{true: "B"}[c.bold], 10*72/25.4) // an em of 10 mm
		own, other := draw.Measure(c.text, 10, c.bold), pdf.GetStringWidth(c.text)
		assert.Less(t, other, 1.03*own, c.text)
		ours, theirs = ours+own, theirs+other
	}
	assert.Less(t, theirs, ours, "on the whole")
	assert.Greater(t, theirs, 0.9*ours, "nor much narrower")
}

func TestSVGStrokes(t *testing.T) {
	b := newSheet(100, 100)
	b.add(&draw.Stroke{Path: poly(1, 2, 3.00049, 4), Width: 0.35, Ink: draw.InkSymbol})
	b.add(&draw.Stroke{Path: closed(poly(0, 0, 5, 0, 5, 5)), Width: 0.7, Ink: draw.InkOwn, Color: rgb(0x12ABEF), Dash: []float64{2, 0, 1}, Offset: -1})
	out := svgOf(t, &b.list, SVGOptions{})
	assert.Contains(t, out, `<path class="l symbol" stroke-width="0.35" d="M1 2L3 4"/>`)
	assert.Contains(t, out, `<path class="l d" stroke="#12abef" stroke-width="0.7" stroke-dasharray="2 0 1 2 0.7 1" stroke-dashoffset="5.7" d="M0 0L5 0L5 5Z"/>`,
		"an odd pattern is written out twice, a dot has the width of the line")
}

func TestSVGLeavesOutWhatIsNotANumber(t *testing.T) {
	for seed := range uint64(300) {
		l := wild(rand.New(rand.NewPCG(seed, 2)))
		l.Size = draw.Point{X: 100, Y: 80}
		for _, outlines := range []bool{false, true} {
			out := svgOf(t, l, SVGOptions{TextAsOutlines: outlines})
			elements(t, out)
			require.NotContains(t, out, "NaN", "seed %d", seed)
			require.NotContains(t, out, "Inf", "seed %d", seed)
		}
	}
}

// run runs a program that the tests need. Tests do not pass without it.
func run(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	path, err := exec.LookPath(name)
	require.NoError(t, err, "%s is needed to check what other programs read: install poppler-utils and librsvg2-bin", name)
	out, err := exec.Command(path, args...).CombinedOutput()
	require.NoError(t, err, "%s: %s", name, out)
	return out
}

func readPicture(t *testing.T, path string) image.Image {
	t.Helper()
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	return img
}

// alike compares pictures of the same page by different programs after both
// are reduced 4:1, which hides how they soften edges.
func alike(t *testing.T, a, b image.Image, worst, mean float64, why string) {
	t.Helper()
	w, h := min(a.Bounds().Dx(), b.Bounds().Dx())/4, min(a.Bounds().Dy(), b.Bounds().Dy())/4
	require.InDelta(t, a.Bounds().Dx(), b.Bounds().Dx(), 1, why)
	require.InDelta(t, a.Bounds().Dy(), b.Bounds().Dy(), 1, why)
	sum, most := 0.0, 0.0
	for y := range h {
		for x := range w {
			var p, q [3]float64
			for j := range 4 {
				for i := range 4 {
					r, g, bl, _ := a.At(4*x+i, 4*y+j).RGBA()
					p[0], p[1], p[2] = p[0]+float64(r), p[1]+float64(g), p[2]+float64(bl)
					r, g, bl, _ = b.At(4*x+i, 4*y+j).RGBA()
					q[0], q[1], q[2] = q[0]+float64(r), q[1]+float64(g), q[2]+float64(bl)
				}
			}
			for c := range 3 {
				d := max(p[c]-q[c], q[c]-p[c]) / 16 / 257
				sum += d
				most = max(most, d)
			}
		}
	}
	assert.Less(t, sum/float64(3*w*h), mean, "%s: mean difference of 255", why)
	assert.Less(t, most, worst, "%s: largest difference of 255", why)
}

func TestSVGLooksLikeThePicture(t *testing.T) {
	dir := t.TempDir()
	source, picture := filepath.Join(dir, "a.svg"), filepath.Join(dir, "a.png")
	l := sample()
	require.NoError(t, os.WriteFile(source, []byte(svgOf(t, l, SVGOptions{Palette: Light(), TextAsOutlines: true})), 0o600))
	run(t, "rsvg-convert", "-d", "254", "-p", "254", "-o", picture, source)
	got := readPicture(t, picture)
	assert.InDelta(t, 2100, got.Bounds().Dx(), 1, "210 mm at 10 pixels a millimetre")
	assert.InDelta(t, 1480, got.Bounds().Dy(), 1)
	want := paint(l, View{PxPerMM: 10, W: 2100, H: 1480, Exact: true}, Light())
	alike(t, want, got, 40, 0.3, "svg")
}
