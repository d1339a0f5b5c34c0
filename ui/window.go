package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// appName is the program's name.
const appName = "Loomwright"

// Sizes of a first window.
const (
	firstWidth  = 1440
	firstHeight = 900
)

// frame holds the panels round the drawing and what the user made of them.
type frame struct {
	left, right, down *steady         // nil where the panel is hidden
	before            panelsHidden    // what was hidden before the drawing was alone
	centre            *fyne.Container // drawing with its tabs
	holder            *fyne.Container
	overview          *overview
	corner            *fyne.Container // where the overview lies
}

// build makes the window's content once; a theme change builds it again.
func (ed *Editor) build() {
	ed.tips = newTips(ed.crew)
	ed.tips.keys = ed.typedKey
	ed.sheetView = newSheetView(ed)
	ed.registerActions()
	ed.strip = newStrip(ed)
	ed.tabs = newSheetTabs(ed)
	ed.tray = newTray(ed)
	ed.details = newDetails(ed)
	ed.drawer = newDrawer(ed)
	ed.status = newStatusLine(ed)
	ed.menu = newMenuBar(ed)
	ed.frame = &frame{}
	ed.frame.overview = newOverview(ed)
	ed.frame.corner = container.New(corner{ed.frame.overview}, ed.frame.overview)
	ed.frame.centre = container.NewBorder(ed.tabs.object(), nil, nil, nil, container.NewStack(ed.sheetView, ed.frame.corner))
	ed.frame.holder = container.NewStack()
	ed.arrange()
	main := container.NewBorder(ed.strip.object(), ed.status.object(), nil, nil, ed.frame.holder)
	ed.win.SetContent(container.NewStack(main, ed.tips.layer))
	ed.win.SetPadded(false)
	ed.win.SetMainMenu(ed.menu.main)
	w, h := ed.store.Width, ed.store.Height
	if w < 640 || h < 400 {
		w, h = firstWidth, firstHeight
	}
	ed.win.Resize(fyne.NewSize(w, h))
	ed.win.SetCloseIntercept(ed.close)
	ed.win.Canvas().SetOnTypedKey(func(e *fyne.KeyEvent) { ed.typedKey(e.Name, heldMods()) })
	ed.win.SetOnDropped(func(_ fyne.Position, uris []fyne.URI) {
		for _, u := range uris {
			if u.Scheme() == "file" {
				ed.askThenOpen(u.Path())
				return
			}
		}
	})
}

// panel lays the panels' own ground behind an object.
func panel(o fyne.CanvasObject) fyne.CanvasObject {
	return container.NewStack(newGround(colorChrome), o)
}

// ground is a coloured rectangle that follows the theme.
func newGround(name fyne.ThemeColorName) *canvas.Rectangle {
	return canvas.NewRectangle(theme.Color(name))
}

// rebuild makes the window's content anew with the same session. The toolkit
// refreshes its widgets when the theme changes; our own canvas objects took
// their colours when they were made.
func (ed *Editor) rebuild() {
	ed.frame.dragged()
	cam, fitted, whole := ed.sheetView.cam, ed.sheetView.fitted, ed.sheetView.whole
	size := ed.win.Canvas().Size()
	ed.store.Width, ed.store.Height = size.Width, size.Height
	tab, look := ed.drawer.tab(), ed.drawer.findings.view
	ed.actions = newActionSet()
	ed.build()
	ed.sheetView.cam, ed.sheetView.fitted, ed.sheetView.whole = cam, fitted, whole
	ed.showComparison()
	ed.drawer.open(tab)
	ed.drawer.findings.view = look
	ed.useTool(selectTool)
	ed.follow()
	ed.drawer.studied()
	ed.win.Canvas().Focus(ed.sheetView)
}
