package ui

import (
	"fmt"
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic/export"
)

// previewSize is the room for one page in the export box.
const previewSize = 400

// printPreview shows the pages of a document as they will come, one at a time,
// with where each lies when a sheet takes several.
type printPreview struct {
	pages   []export.PagePreview
	at      int
	raster  *canvas.Raster
	caption *widget.Label
	number  *widget.Label
	prev    *button
	next    *button
	tiles   *fyne.Container
	box     fyne.CanvasObject
	picture *image.RGBA // of page at, in the size of the raster
}

func newPrintPreview(ed *Editor) *printPreview {
	p := &printPreview{caption: widget.NewLabel(""), number: widget.NewLabel(""), tiles: container.New(tileLayout{})}
	p.raster = canvas.NewRaster(p.paint)
	p.raster.ScaleMode = canvas.ImageScalePixels
	// In a small window the whole box must have room.
	room := ed.win.Canvas().Size()
	p.raster.SetMinSize(fyne.NewSquareSize(max(160, min(previewSize, room.Width/2-150, room.Height-260))))
	p.caption.Wrapping, p.caption.Importance = fyne.TextWrapWord, widget.LowImportance
	p.prev = newButton(ed.tips, "Before", "", "Show the page before", func() { p.turn(-1) })
	p.next = newButton(ed.tips, "Next", "", "Show the next page", func() { p.turn(1) })
	bar := container.NewBorder(nil, nil, p.number, container.NewHBox(container.New(padded{6, 2}, p.tiles), p.prev, p.next))
	p.box = container.NewVBox(bar, p.raster, p.caption)
	return p
}

// show shows other pages; the page number stays where it can. Note is said
// where there are no pages.
func (p *printPreview) show(pages []export.PagePreview, note string) {
	p.pages, p.picture = pages, nil
	p.at = max(0, min(p.at, len(pages)-1))
	if len(pages) == 0 {
		p.number.SetText("")
		p.caption.SetText(note)
	}
	p.turn(0)
}

func (p *printPreview) turn(by int) {
	n := len(p.pages)
	p.prev.enable(n > 0 && p.at+by > 0)
	p.next.enable(n > 0 && p.at+by < n-1)
	p.tiles.Objects = nil
	if n > 0 {
		p.at = max(0, min(p.at+by, n-1))
		pg := &p.pages[p.at]
		p.number.SetText(fmt.Sprintf("Page %d of %d", p.at+1, n))
		p.caption.SetText(pg.Caption())
		p.showTiles(pg)
	}
	p.picture = nil
	p.tiles.Refresh()
	p.raster.Refresh()
}

// mostTiles is how many pages of one sheet the small plan shows.
const mostTiles = 120

// showTiles draws a small plan of the pages a sheet takes, this one filled.
func (p *printPreview) showTiles(pg *export.PagePreview) {
	if n := pg.Rows * pg.Cols; n < 2 || n > mostTiles {
		return
	}
	for row := range pg.Rows {
		for col := range pg.Cols {
			r := canvas.NewRectangle(color.Transparent)
			r.StrokeColor, r.StrokeWidth = theme.Color(theme.ColorNameForeground), 1
			if row == pg.Row && col == pg.Col {
				r.FillColor = theme.Color(theme.ColorNamePrimary)
			}
			p.tiles.Add(r)
		}
	}
	p.tiles.Layout = tileLayout{pg.Cols, pg.Rows, pg.SizeMM.X / pg.SizeMM.Y}
}

func (p *printPreview) paint(w, h int) image.Image {
	if len(p.pages) == 0 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	if p.picture == nil || p.picture.Rect.Dx() != w || p.picture.Rect.Dy() != h {
		p.picture = p.pages[p.at].Paint(w, h)
	}
	return p.picture
}

// tileLayout lays a plan of pages out, as high as a line of text.
type tileLayout struct {
	cols, rows int
	shape      float64 // of a page, width to height
}

const planHeight = 28

func (l tileLayout) cell() fyne.Size {
	h := planHeight / float32(max(1, l.rows))
	return fyne.NewSize(h*float32(l.shape), h)
}

func (l tileLayout) Layout(objs []fyne.CanvasObject, _ fyne.Size) {
	c := l.cell()
	for i, o := range objs {
		o.Move(fyne.NewPos(float32(i%max(1, l.cols))*c.Width, float32(i/max(1, l.cols))*c.Height))
		o.Resize(fyne.NewSize(max(1, c.Width-2), max(1, c.Height-2)))
	}
}

func (l tileLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.cell().Width*float32(l.cols), planHeight)
}
