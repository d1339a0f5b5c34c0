package ui

import (
	"image/color"
	"iter"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc/tables"
	"loomwright/schematic"
)

// wireColor is the display colour of a code of IEC 60757; unknown codes are
// clear.
func wireColor(code string) color.Color {
	r, ok := tables.ColourByCode(code)
	if !ok {
		return color.Transparent
	}
	return color.NRGBA{r.R, r.G, r.B, 0xff}
}

// insulationNames lists the cable families the tables know.
func insulationNames() []string {
	var names []string
	for _, r := range tables.Insulations().All() {
		names = append(names, r.Code)
	}
	slices.Sort(names)
	return names
}

// popUpColors offers base and tracer colours to choose from.
func (ed *Editor) popUpColors(near fyne.CanvasObject, now schematic.Color, set func(schematic.Color)) {
	var pop *widget.PopUp
	chart := func(codes []string, pick func(string)) fyne.CanvasObject {
		grid := container.NewGridWithColumns(5)
		for _, code := range codes {
			face := canvas.NewRectangle(wireColor(code))
			face.StrokeColor, face.StrokeWidth = theme.Color(theme.ColorNameInputBorder), 1
			face.SetMinSize(fyne.NewSize(44, 16))
			name := widget.NewLabel(code)
			if code == "" {
				name.SetText("none")
			}
			name.Alignment = fyne.TextAlignCenter
			name.SizeName = theme.SizeNameCaptionText
			grid.Add(newSwatchButton(container.NewVBox(container.New(padded{3, 2}, face), name), func(fyne.CanvasObject) { pick(code) }))
		}
		return grid
	}
	base := chart(schematic.ColorCodes(), func(code string) {
		pop.Hide()
		c := schematic.Color{Base: code, Tracer: now.Tracer}
		if c.Base == c.Tracer {
			c.Tracer = ""
		}
		set(c)
	})
	codes := append([]string{""}, schematic.ColorCodes()...)
	tracer := chart(codes, func(code string) {
		pop.Hide()
		c := schematic.Color{Base: now.Base, Tracer: code}
		if c.Base == "" {
			c.Base, c.Tracer = code, ""
		}
		if c.Base == c.Tracer {
			c.Tracer = ""
		}
		set(c)
	})
	bold := func(s string) fyne.CanvasObject {
		l := widget.NewLabel(s)
		l.TextStyle.Bold = true
		return l
	}
	content := container.NewVBox(bold("Base colour"), base, bold("Tracer"), tracer)
	pop = widget.NewPopUp(content, ed.win.Canvas())
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(near)
	size := pop.MinSize()
	room := ed.win.Canvas().Size()
	pop.ShowAtPosition(fyne.NewPos(
		max(0, min(at.X+near.Size().Width-size.Width, room.Width-size.Width)),
		max(0, min(at.Y+near.Size().Height, room.Height-size.Height))))
}

// popUpAt shows a menu below an object.
func (ed *Editor) popUpAt(o fyne.CanvasObject, items []*fyne.MenuItem) {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), ed.win.Canvas(), at.AddXY(0, o.Size().Height))
}

// popUp shows a menu of commands; an empty name is a line between them.
func (ed *Editor) popUp(at fyne.Position, ids ...string) {
	var items []*fyne.MenuItem
	for _, id := range ids {
		if id == "" {
			items = append(items, fyne.NewMenuItemSeparator())
			continue
		}
		a := ed.actions.Find(id)
		it := ed.menu.entry(a)
		it.Disabled = !a.IsEnabled()
		it.Checked = a.Checked != nil && a.Checked()
		items = append(items, it)
	}
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), ed.win.Canvas(), at)
}

// sortedByName collects items in the order of their designations.
func sortedByName[T schematic.Item](items iter.Seq[T]) []T {
	return slices.SortedFunc(items, schematic.CompareItems)
}
