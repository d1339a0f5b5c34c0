package ui

import (
	"errors"
	"image"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/netlist/check"
	"loomwright/netlist/plot"
	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/export"
)

// plotted is one thing a plot can be made of: a wire, a fuse, one of a block.
type plotted struct {
	key  schematic.Key
	pin  string
	name string
}

// plottable lists what a plot can be made of: what is selected, and what the
// finding in hand is about.
func (ed *Editor) plottable() []plotted {
	keys := slices.Clone(ed.sess.Selection())
	if x := ed.drawer.findings.inHand(); x != nil {
		for _, k := range x.Items {
			if !slices.Contains(keys, k) {
				keys = append(keys, k)
			}
		}
	}
	var out []plotted
	for _, k := range keys {
		switch it := ed.doc().Get(k).(type) {
		case *schematic.Wire:
			out = append(out, plotted{k, "", it.Name})
		case *schematic.Part:
			out = append(out, ed.fusesOf(it)...)
		}
	}
	return out
}

// fusesOf lists the fuses of a part: itself, or those at its pins.
func (ed *Editor) fusesOf(p *schematic.Part) []plotted {
	k := ed.doc().KindOf(p)
	if k == nil {
		return nil
	}
	isFuse := func(e schematic.Element) bool { return e.Type == schematic.ElemFuse }
	if slices.ContainsFunc(k.Elements, isFuse) {
		return []plotted{{p.Key(), "", p.Name}}
	}
	var out []plotted
	for _, pin := range ed.doc().PinsOf(p) {
		if r, ok := k.Role(pin.Role); ok && slices.ContainsFunc(r.Elements, isFuse) {
			out = append(out, plotted{p.Key(), pin.Name, p.Name + " pin " + pin.Name})
		}
	}
	return out
}

// plotBox shows the plot of a fuse against the wire it protects.
type plotBox struct {
	ed    *Editor
	all   []plotted
	which *pick
	said  *widget.Label
	chart *chart
	list  *draw.List // nil: there is no plot
	box   *box
}

// openPlot opens the plot of what is selected.
func (ed *Editor) openPlot() *plotBox {
	have := ed.study.have
	all := ed.plottable()
	if have == nil || have.doc != ed.doc() || len(all) == 0 {
		ed.status.warn("the checks are at work on your last change: try again in a moment")
		return nil
	}
	p := &plotBox{ed: ed, all: all, said: widget.NewLabel(""), chart: newChart(ed.store.Dark)}
	p.said.Wrapping = fyne.TextWrapWord
	keys := func(k fyne.KeyName, _ fyne.KeyModifier) { p.box.key(k) }
	p.which = newPick(keys, nil, func(string) { p.show(p.which.SelectedIndex()) })
	for _, x := range all {
		p.which.Options = append(p.which.Options, x.name)
	}
	p.box = &box{title: "Fuse against wire", about: "plot", size: fyne.NewSize(1120, 860),
		answers: []answer{{text: "Save as PDF, PNG or SVG…", deed: p.save}, {text: "Close", main: true}}}
	p.box.content = container.NewBorder(row("Plot of", p.which), p.said, nil, nil, p.chart.raster)
	// The first that can be drawn.
	first := max(0, slices.IndexFunc(all, func(x plotted) bool {
		_, err := check.PlotGuard(have.net, have.states, x.key, x.pin)
		return err == nil
	}))
	p.which.SetSelectedIndex(first)
	ed.openBox(p.box)
	return p
}

// show draws one of the plots.
func (p *plotBox) show(i int) {
	if i < 0 || i >= len(p.all) {
		return
	}
	have := p.ed.study.have
	g, err := check.PlotGuard(have.net, have.states, p.all[i].key, p.all[i].pin)
	p.list = nil
	if err != nil {
		p.said.SetText(sentence(err.Error()) + ".")
	} else {
		p.list = plot.Guard(g)
		p.said.SetText("")
	}
	show(p.said, p.list == nil)
	p.chart.set(p.list)
}

// save asks where to write the plot, after the box is closed.
func (p *plotBox) save() {
	ed := p.ed
	if p.list == nil {
		ed.status.warn("there is no plot to save")
		return
	}
	name := strings.TrimSuffix(ed.exportPath(asPDF), ".pdf") + "-" + strings.ReplaceAll(p.all[p.which.SelectedIndex()].name, " ", "-") + ".pdf"
	list := p.list
	ed.pathDialog("Save the plot", "Save", name, func(from string, found func(string), _ func()) {
		ed.browseSave(from, found)
	}, func(path string) (string, error) {
		if formatOf(path) == "" {
			return "", errors.New("cannot tell the format: end the name in .pdf, .png or .svg")
		}
		return path, nil
	}, func(path string) {
		ed.export(exportJob{format: formatOf(path), lists: []*draw.List{list}, path: path, dpi: 200, palette: export.Print(), paper: export.A4, title: ed.exportTitle() + ": fuse against wire"})
	})
}

// formatOf tells the format from the end of a file's name, "" for none.
func formatOf(path string) string {
	return map[string]string{".pdf": asPDF, ".png": asPNG, ".svg": asSVG}[strings.ToLower(filepath.Ext(path))]
}

// chart paints a display list as large as there is room.
type chart struct {
	list    *draw.List
	painter export.Painter
	palette export.Palette
	raster  *canvas.Raster
}

func newChart(dark bool) *chart {
	c := &chart{palette: export.Light()}
	if dark {
		c.palette = export.Dark()
	}
	c.raster = canvas.NewRaster(c.paint)
	c.raster.ScaleMode = canvas.ImageScalePixels
	c.raster.SetMinSize(fyne.NewSize(320, 240))
	return c
}

func (c *chart) set(l *draw.List) {
	c.list = l
	c.raster.Refresh()
}

// paint is the raster's generator.
func (c *chart) paint(w, h int) image.Image {
	frame := c.painter.Frame(w, h)
	list := c.list
	if list == nil {
		list = &draw.List{}
	}
	v := export.View{W: w, H: h, PxPerMM: 1}
	if list.Size.X > 0 && list.Size.Y > 0 {
		v.PxPerMM = math.Min(float64(w)/list.Size.X, float64(h)/list.Size.Y)
		v.OriginMM = draw.Point{X: (list.Size.X - float64(w)/v.PxPerMM) / 2, Y: (list.Size.Y - float64(h)/v.PxPerMM) / 2}
	}
	c.painter.Paint(frame, list, v, &c.palette)
	return frame
}
