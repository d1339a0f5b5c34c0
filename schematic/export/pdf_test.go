package export

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/draw"
)

// pdfFile writes a document and returns its path.
func pdfFile(t *testing.T, o PDFOptions, lists ...*draw.List) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, PDF(t.Context(), &out, lists, o))
	path := filepath.Join(t.TempDir(), "a.pdf")
	require.NoError(t, os.WriteFile(path, out.Bytes(), 0o600))
	return path
}

// pageSizes returns what pdfinfo says of every page, in mm.
func pageSizes(t *testing.T, path string) (out []draw.Point) {
	t.Helper()
	info := string(run(t, "pdfinfo", "-l", "999", path))
	for _, m := range regexp.MustCompile(`Page +\d+ size: +([\d.]+) x ([\d.]+) pts`).FindAllStringSubmatch(info, -1) {
		w, err := strconv.ParseFloat(m[1], 64)
		require.NoError(t, err)
		h, err := strconv.ParseFloat(m[2], 64)
		require.NoError(t, err)
		out = append(out, draw.Point{X: w * 25.4 / 72, Y: h * 25.4 / 72})
	}
	require.NotEmpty(t, out, info)
	return out
}

// ISO 216 gives A4 as 210 × 297 mm and A3 as 297 × 420 mm; ANSI letter is
// 8.5 × 11 inch.
func TestPDFPages(t *testing.T) {
	wide, tall := &newSheet(400, 200).list, &newSheet(180, 250).list
	type size = draw.Point
	for _, c := range []struct {
		why   string
		o     PDFOptions
		lists []*draw.List
		want  []size
	}{
		{"fit, each page as its sheet lies", PDFOptions{}, []*draw.List{wide, tall}, []size{{X: 297, Y: 210}, {X: 210, Y: 297}}},
		{"A3", PDFOptions{Paper: A3}, []*draw.List{wide}, []size{{X: 420, Y: 297}}},
		{"letter", PDFOptions{Paper: Letter}, []*draw.List{tall}, []size{{X: 215.9, Y: 279.4}}},
		{"as drawn", PDFOptions{Paper: AsDrawn}, []*draw.List{wide, tall}, []size{{X: 400, Y: 200}, {X: 180, Y: 250}}},
		{"true size on one page", PDFOptions{Scale: OneToOne}, []*draw.List{tall}, []size{{X: 210, Y: 297}}},
		{"true size on two pages", PDFOptions{Scale: OneToOne}, []*draw.List{&newSheet(400, 160).list}, []size{{X: 297, Y: 210}, {X: 297, Y: 210}}},
	} {
		got := pageSizes(t, pdfFile(t, c.o, c.lists...))
		require.Len(t, got, len(c.want), c.why)
		for i := range got {
			assert.InDelta(t, c.want[i].X, got[i].X, 0.02, c.why)
			assert.InDelta(t, c.want[i].Y, got[i].Y, 0.02, c.why)
		}
	}
}

func TestPDFTextCanBeSearched(t *testing.T) {
	path := pdfFile(t, PDFOptions{Title: "Fan (left) & lamps"}, sample())
	text := string(run(t, "pdftotext", "-layout", path, "-"))
	for _, want := range []string{"W1 1.5 mm² BU/RD", "Cooling fan and lamps", "55 W, 12 V, 2.6 Ω ≥ 5°", `<&> "q"`, "K2 µ²", "over the limit",
		"Scale 1 : 1.00", "Fan (left) & lamps", "Calculation aid only."} {
		assert.Contains(t, text, want)
	}
	info := string(run(t, "pdfinfo", path))
	assert.Regexp(t, `Title: +Fan \(left\) & lamps`, info)
	fonts := string(run(t, "pdffonts", path))
	assert.Len(t, regexp.MustCompile(`CID TrueType +Identity-H +yes +\w+ +yes`).FindAllString(fonts, -1), 2,
		"Go Regular and Go Bold are embedded with their Unicode:\n%s", fonts)
	file, err := os.Stat(path)
	require.NoError(t, err)
	assert.Less(t, file.Size(), int64(80_000), "only the glyphs used; the whole fonts alone take more")
}

func TestPDFTitleInAnyScript(t *testing.T) {
	for _, title := range []string{"Plug \U0001F50C, seen 1 × \\ (back", "Ωµ é 線束", "ends with \U0001F50C"} {
		info := string(run(t, "pdfinfo", pdfFile(t, PDFOptions{Title: title}, &newSheet(100, 100).list)))
		assert.Contains(t, info, title+"\n")
	}
}

func TestPDFTurnedTextCanBeSearched(t *testing.T) {
	for _, angle := range []float64{90, 180, 270} {
		b := newSheet(100, 100)
		b.text(50, 50, 3, angle, draw.InkText, "W7 2.5 mm²")
		assert.Contains(t, string(run(t, "pdftotext", pdfFile(t, PDFOptions{}, &b.list), "-")), "W7 2.5 mm²", "%g°", angle)
	}
}

// What follows the sheets keeps its size at either scale, counts as no sheet and
// has no scale beside it.
func TestPDFAfterTheSheets(t *testing.T) {
	for _, o := range []PDFOptions{{}, {Scale: OneToOne}, {Paper: Letter}, {Paper: A3, Scale: OneToOne}} {
		table := draw.Listing{Title: "A table", Empty: "of nothing", Page: o.Paper.Room()}
		o.After = table.Pages()
		path := pdfFile(t, o, &newSheet(180, 150).list)
		sizes := pageSizes(t, path)
		require.Len(t, sizes, 2)
		assert.Less(t, sizes[1].X, sizes[1].Y, "it stands")
		first, last := string(run(t, "pdftotext", "-l", "1", path, "-")), string(run(t, "pdftotext", "-f", "2", path, "-"))
		assert.Contains(t, first, "Scale")
		assert.NotContains(t, last, "Scale")
		assert.NotContains(t, first+last, "sheet 1 of")
		assert.Contains(t, last, "A table")
		pages, err := Pages([]*draw.List{&newSheet(180, 150).list}, o)
		require.NoError(t, err)
		assert.Len(t, pages, 2)
		assert.InDelta(t, 1, pages[1].Scale, 1e-9)
	}
}

func TestPDFDate(t *testing.T) {
	when := time.Date(2031, 5, 17, 12, 0, 0, 0, time.UTC)
	info := string(run(t, "pdfinfo", "-isodates", pdfFile(t, PDFOptions{Date: when}, sample())))
	assert.Contains(t, info, "2031-05-17T12:00:00")
}

func TestPDFScaleIsPrinted(t *testing.T) {
	text := string(run(t, "pdftotext", "-layout", pdfFile(t, PDFOptions{}, &newSheet(554, 200).list), "-"))
	assert.Contains(t, text, "Scale 1 : 2.00 (50 % of the drawn size)", "277 mm of an A4 page can be used")
}

func TestPDFTilesSayWhereTheyBelong(t *testing.T) {
	path := pdfFile(t, PDFOptions{Scale: OneToOne, Title: "Plate"}, &newSheet(420, 297).list, &newSheet(100, 100).list)
	n := len(pageSizes(t, path))
	require.Equal(t, 5, n)
	for i, want := range []string{"row 1 of 2, column 1 of 2 · sheet 1 of 2", "row 1 of 2, column 2 of 2", "row 2 of 2, column 1 of 2", "row 2 of 2, column 2 of 2", "Scale 1 : 1 · sheet 2 of 2"} {
		page := fmt.Sprint(i + 1)
		text := string(run(t, "pdftotext", "-layout", "-f", page, "-l", page, path, "-"))
		assert.Contains(t, text, want)
		assert.Contains(t, text, "This line is 100 mm long.")
		assert.Contains(t, text, "Plate")
	}
}

// rendered returns a page as pdftoppm shows it at 10 pixels a millimetre.
func rendered(t *testing.T, path string, page int) image.Image {
	t.Helper()
	to := filepath.Join(t.TempDir(), "page")
	n := fmt.Sprint(page)
	run(t, "pdftoppm", "-r", "254", "-f", n, "-l", n, "-singlefile", "-png", path, to)
	return readPicture(t, to+".png")
}

func dark(img image.Image, x, y int) bool {
	r, g, b, _ := img.At(x, y).RGBA()
	return r+g+b < 3*0xd000
}

func TestPDFTrueSizeIsTrue(t *testing.T) {
	b := newSheet(320, 150)
	b.stroke(draw.InkSymbol, 0.5, poly(20, 30, 20, 80)).stroke(draw.InkSymbol, 0.5, poly(170, 30, 170, 80))
	path := pdfFile(t, PDFOptions{Scale: OneToOne}, &b.list)
	img := rendered(t, path, 1)
	var xs []int // middles of the two lines on a row through them
	for x, from := 0, -1; x < img.Bounds().Dx(); x++ {
		if dark(img, x, 600) {
			if from < 0 {
				from = x
			}
		} else if from >= 0 {
			xs, from = append(xs, (from+x)/2), -1
		}
	}
	require.Len(t, xs, 2)
	assert.InDelta(t, 1500, xs[1]-xs[0], 2, "150 mm apart at 10 pixels a millimetre")

	longest := 0 // the ruler is the longest dark run in the footer
	for y := img.Bounds().Dy() - 150; y < img.Bounds().Dy(); y++ {
		for x, length := 0, 0; x < img.Bounds().Dx(); x++ {
			if length++; !dark(img, x, y) {
				length = 0
			}
			longest = max(longest, length)
		}
	}
	assert.InDelta(t, 1000, longest, 4, "the ruler is 100 mm, plus the width of its line")
}

func TestPDFLooksLikeThePicture(t *testing.T) {
	l := sample()
	pal := Light()
	pal.Inks[draw.InkPaper] = rgb(0xFFFFFF) // the page itself has no colour
	pal.Desk = pal.Inks[draw.InkPaper]
	got := rendered(t, pdfFile(t, PDFOptions{Paper: AsDrawn, Palette: pal}, l), 1)
	want := paint(l, View{PxPerMM: 10, W: 2100, H: 1480, Exact: true}, pal)
	// pdftoppm moves thin lines by up to half a pixel.
	alike(t, want, got, 100, 0.9, "pdf")
}

func TestTilesCoverTheSheet(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		sheet := draw.Point{X: 20 + rnd.Float64()*1500, Y: 20 + rnd.Float64()*1000}
		for _, paper := range []Paper{A4, A3, Letter} {
			pages := layOut(sheet, paper, OneToOne)
			for i, pg := range pages {
				require.Equal(t, i, pg.row*pg.cols+pg.col)
				require.Equal(t, pg.rows*pg.cols, len(pages))
				require.GreaterOrEqual(t, pg.window.Min.X, pageMargin-1e-9)
				require.LessOrEqual(t, pg.window.Max.X, pg.size.X-pageMargin+1e-9)
				require.LessOrEqual(t, pg.window.Max.Y, pg.size.Y-pageMargin-footerSpace+1e-9)
				left, right := pg.window.Min.X-pg.at.X, pg.window.Max.X-pg.at.X // on the sheet
				top, bottom := pg.window.Min.Y-pg.at.Y, pg.window.Max.Y-pg.at.Y
				require.Greater(t, right, left)
				require.Greater(t, bottom, top)
				if pg.col == 0 {
					require.InDelta(t, 0, left, 1e-9)
				} else {
					before := pages[i-1]
					require.InDelta(t, overlap, before.window.Max.X-before.at.X-left, 1e-9, "neighbours overlap")
				}
				if pg.col == pg.cols-1 {
					require.InDelta(t, sheet.X, right, 1e-9)
				}
				if pg.row == 0 {
					require.InDelta(t, 0, top, 1e-9)
				} else {
					above := pages[i-pg.cols]
					require.InDelta(t, overlap, above.window.Max.Y-above.at.Y-top, 1e-9)
				}
				if pg.row == pg.rows-1 {
					require.InDelta(t, sheet.Y, bottom, 1e-9)
				}
			}
			one := layOut(sheet, paper, Fit)
			require.Len(t, one, 1)
			require.LessOrEqual(t, one[0].scale, 1.0, "never enlarged")
			require.InDelta(t, one[0].window.Min.X-pageMargin, one[0].size.X-pageMargin-one[0].window.Max.X, 1e-9, "centred")
		}
	}
}

func TestPDFRefuses(t *testing.T) {
	for _, c := range []struct {
		lists []*draw.List
		o     PDFOptions
		want  string
	}{
		{nil, PDFOptions{}, "choose at least one sheet"},
		{[]*draw.List{sample(), nil}, PDFOptions{}, "sheet 2 of 2: no sheet given"},
		{[]*draw.List{{}}, PDFOptions{}, "sides must be above 0"},
		{[]*draw.List{&newSheet(9000, 9000).list}, PDFOptions{Scale: OneToOne}, "choose larger paper"},
		{[]*draw.List{sample()}, PDFOptions{Paper: 99}, "unknown"},
	} {
		assert.ErrorContains(t, PDF(t.Context(), io.Discard, c.lists, c.o), c.want)
	}
}

func TestPDFStopsAndReports(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	var seen []int
	lists := []*draw.List{sample(), sample(), sample()}
	err := PDF(ctx, io.Discard, lists, PDFOptions{Progress: func(done, total int) {
		assert.Equal(t, 3, total)
		if seen = append(seen, done); done == 2 {
			cancel()
		}
	}})
	assert.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, []int{1, 2}, seen)
}

func TestPDFTakesWildLists(t *testing.T) {
	for seed := range uint64(60) {
		l := wild(rand.New(rand.NewPCG(seed, 3)))
		l.Size = draw.Point{X: 100, Y: 80}
		require.NoError(t, PDF(t.Context(), io.Discard, []*draw.List{l}, PDFOptions{Title: "\x00\U0001F50C"}), "seed %d", seed)
		if seed < 5 {
			pageSizes(t, pdfFile(t, PDFOptions{}, l))
		}
	}
}

func TestPDFMissingRunesAreBoxes(t *testing.T) {
	text := func(s string) image.Image {
		b := newSheet(60, 20)
		b.text(10, 12, 6, 0, draw.InkText, s)
		return rendered(t, pdfFile(t, PDFOptions{Paper: AsDrawn}, &b.list), 1)
	}
	count := func(img image.Image) (n int) {
		for y := range img.Bounds().Dy() {
			for x := range img.Bounds().Dx() {
				if dark(img, x, y) {
					n++
				}
			}
		}
		return n
	}
	none, box, beyond := count(text("a  b")), count(text("a\u2702b")), count(text("a\U0001F50Cb"))
	assert.Greater(t, box, none+50, "a rune that the font lacks shows")
	assert.Equal(t, box, beyond, "beyond the basic plane, too")
}

// Budgets: 100 ms for one sheet, 1 s for twenty.
func BenchmarkPDF(b *testing.B) {
	l := harness(2_000, 600)
	for _, n := range []int{1, 20} {
		b.Run(fmt.Sprintf("%d-sheets", n), func(b *testing.B) {
			lists := make([]*draw.List, n)
			for i := range lists {
				lists[i] = l
			}
			for b.Loop() {
				if err := PDF(b.Context(), io.Discard, lists, PDFOptions{Paper: A3}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("A0-in-tiles", func(b *testing.B) {
		lists := []*draw.List{harness(10_000, 3_000)}
		for b.Loop() {
			if err := PDF(b.Context(), io.Discard, lists, PDFOptions{Scale: OneToOne}); err != nil {
				b.Fatal(err)
			}
		}
	})
}
