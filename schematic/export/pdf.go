package export

import (
	"context"
	"encoding/binary"
	"fmt"
	"io"
	"slices"
	"time"
	"unicode/utf16"

	"codeberg.org/go-pdf/fpdf"

	"loomwright/schematic/draw"
)

// PDFOptions say how sheets become pages. The zero value is usable: fitted to
// A4, printed colours.
type PDFOptions struct {
	Paper    Paper
	Scale    Scale
	Title    string
	Palette  Palette               // zero is Print
	Date     time.Time             // of creation; zero is a fixed date, so that bytes repeat
	After    []*draw.List          // what follows the sheets and is none of them: tables, charts
	Progress func(done, total int) // in pages; may be nil
}

// Paper is the size of the pages.
type Paper uint8

const (
	A4      Paper = iota // ISO 216: 210 × 297 mm
	A3                   // ISO 216: 297 × 420 mm
	Letter               // 8.5 × 11 inch
	AsDrawn              // the size of each sheet: no margins, no page marks, no ruler
)

// Scale is the size of the drawing on the page.
type Scale uint8

const (
	Fit      Scale = iota // one page a sheet; reduced where needed, never enlarged
	OneToOne              // true size, over as many pages as it takes
)

// maxPages bounds a document that tiles a huge sheet over small paper.
const maxPages = 500

// PDF writes sheets as one document. Pages stand or lie as suits the sheet.
// The same sheets and options give the same bytes.
func PDF(ctx context.Context, out io.Writer, lists []*draw.List, o PDFOptions) error {
	if o.Palette == (Palette{}) {
		o.Palette = Print()
	}
	sheets := len(lists)
	lists = slices.Concat(lists, o.After)
	pages, err := layOutAll(lists, o)
	if err != nil {
		return err
	}
	total := 0
	for _, p := range pages {
		total += len(p)
	}

	p := newPDF(o)
	done := 0
	for i, l := range lists {
		drawing := p.CreateTemplateCustom(fpdf.PointType{}, fpdf.SizeType{Wd: l.Size.X, Ht: l.Size.Y}, func(t *fpdf.Tpl) {
			(&pdfInk{pdf: &t.Fpdf, pal: &o.Palette}).list(ctx, l)
		})
		for _, pg := range pages[i] {
			if err := ctx.Err(); err != nil {
				return fmt.Errorf("pdf: %w", err)
			}
			p.AddPageFormat("P", fpdf.SizeType{Wd: pg.size.X, Ht: pg.size.Y})
			p.ClipRect(pg.window.Min.X, pg.window.Min.Y, pg.window.Max.X-pg.window.Min.X, pg.window.Max.Y-pg.window.Min.Y, false)
			p.UseTemplateScaled(drawing,
				fpdf.PointType{X: pg.at.X, Y: pg.at.Y},
				fpdf.SizeType{Wd: l.Size.X * pg.scale, Ht: l.Size.Y * pg.scale})
			p.ClipEnd()
			marks := pageMarks(pg, i+1, sheets, o.Title)
			(&pdfInk{pdf: p, pal: &o.Palette}).list(ctx, marks)
			done++
			if o.Progress != nil {
				o.Progress(done, total)
			}
		}
	}
	if err := ctx.Err(); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	if err := p.Output(out); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}

// layOutAll arranges all sheets on their pages, or says why that cannot be.
func layOutAll(lists []*draw.List, o PDFOptions) ([][]page, error) {
	if len(lists) == 0 {
		return nil, fmt.Errorf("pdf: no sheet given: choose at least one sheet")
	}
	if o.Paper > AsDrawn || o.Scale > OneToOne {
		return nil, fmt.Errorf("pdf: paper %d or scale %d unknown", o.Paper, o.Scale)
	}
	pages, total := make([][]page, len(lists)), 0
	for i, l := range lists {
		if err := checkSize(l); err != nil {
			return nil, fmt.Errorf("pdf: sheet %d of %d: %w", i+1, len(lists), err)
		}
		pages[i] = layOut(l.Size, o.Paper, o.Scale)
		total += len(pages[i])
	}
	if total > maxPages {
		return nil, fmt.Errorf("pdf: %d pages needed, at most %d: choose larger paper, fit to the page, or fewer sheets", total, maxPages)
	}
	return pages, nil
}

// utf16Text returns text as PDF holds it outside pages (ISO 32000-1, 7.9.2.2): big
// endian after a mark. The library's own way spoils runes above U+FFFF.
func utf16Text(s string) string {
	out := []byte{0xfe, 0xff}
	for _, u := range utf16.Encode([]rune(s)) {
		out = binary.BigEndian.AppendUint16(out, u)
	}
	return string(out)
}

const pdfFont = "go"

func newPDF(o PDFOptions) *fpdf.Fpdf {
	p := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", SizeStr: "A4"})
	p.SetMargins(0, 0, 0)
	p.SetAutoPageBreak(false, 0)
	p.AddUTF8FontFromBytes(pdfFont, "", draw.FontData(false))
	p.AddUTF8FontFromBytes(pdfFont, "B", draw.FontData(true))
	date := o.Date
	if date.IsZero() {
		date = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	p.SetCreationDate(date)
	p.SetModificationDate(date)
	p.SetCatalogSort(true)
	p.SetTitle(utf16Text(plainText(o.Title)), false)
	p.SetCreator("Loomwright", true)
	return p
}
