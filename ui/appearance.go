package ui

import (
	"fmt"
	"math"
	"os"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"loomwright/ui/action"
)

// Sizes of everything in the window, in per cent. The toolkit rounds to tenths.
const (
	leastPercent = 70
	mostPercent  = 200
	percentStep  = 10
)

// scaleVar is where the toolkit reads the size from, each time a theme is set.
const scaleVar = "FYNE_SCALE"

// startLook sets colours and size before the first window opens.
func (p *program) startLook() {
	if v, err := strconv.ParseFloat(os.Getenv(scaleVar), 64); err == nil && v > 0 {
		p.scale = v
	} else {
		p.scale = 1
	}
	p.store.Percent = max(0, min(p.store.Percent, mostPercent))
	if p.percent() != 100 {
		p.setScale()
	}
	p.dark = p.wantsDark()
	p.app.Settings().SetTheme(newLook(p.dark))
	p.app.Settings().AddListener(func(fyne.Settings) {
		if p.wantsDark() != p.dark { // the system has gone from day to night
			p.crew.post(p.look)
		}
	})
}

// wantsDark says which colours the settings ask for.
func (p *program) wantsDark() bool {
	if p.store.FollowSystem {
		return p.app.Settings().ThemeVariant() == theme.VariantDark
	}
	return p.store.Dark
}

// look shows all windows in the colours of the settings.
func (p *program) look() {
	if dark := p.wantsDark(); dark != p.dark {
		p.dark = dark
		p.app.Settings().SetTheme(newLook(dark))
		p.each((*Editor).rebuild)
	}
}

// setTheme changes between paper, slate and what the system prefers.
func (ed *Editor) setTheme(dark, system bool) {
	ed.store.Dark, ed.store.FollowSystem = dark, system
	ed.keepSettings()
	ed.prog.look()
	ed.prog.each(func(o *Editor) { o.menu.refresh() })
}

// percent is the size of everything in the windows.
func (p *program) percent() int {
	if p.store.Percent < leastPercent {
		return 100
	}
	return p.store.Percent
}

func (p *program) setScale() {
	// The user's own value, if any, counts beside ours.
	_ = os.Setenv(scaleVar, strconv.FormatFloat(math.Round(p.scale*float64(p.percent())/10)/10, 'f', 1, 64))
}

// resize makes everything in all windows larger or smaller; the windows
// themselves keep their size.
func (ed *Editor) resize(percent int) {
	p := ed.prog
	was := p.percent()
	ed.store.Percent = max(leastPercent, min(percent, mostPercent))
	if p.percent() == was {
		return
	}
	ed.keepSettings()
	p.setScale()
	before := map[*Editor]fyne.Size{}
	p.each(func(o *Editor) { before[o] = o.win.Canvas().Size() })
	p.app.Settings().SetTheme(newLook(p.dark)) // makes the toolkit read the size
	p.each(func(o *Editor) {
		f := float32(was) / float32(p.percent())
		o.rebuild()
		o.win.Resize(fyne.NewSize(before[o].Width*f, before[o].Height*f))
		o.status.tell(fmt.Sprintf("everything is shown at %d %%", p.percent()))
	})
}

func (ed *Editor) appearanceActions() {
	s := &ed.store.Settings
	sizes := func(id, title, value, help string) *action.Action {
		return &action.Action{ID: id, Title: title, Menu: "View/Units", Words: "gauge square millimetres conductor wire size units", Help: help,
			Checked: func() bool { return s.Sizes == value }, Run: func() { s.Sizes = value; ed.unitsChanged() }}
	}
	system := func(id, title, help string, imperial bool) *action.Action {
		return &action.Action{ID: id, Title: title, Menu: "View/Units", Words: "units length temperature metric imperial feet inches", Help: help,
			Checked: func() bool { return s.Imperial == imperial }, Run: func() { s.Imperial = imperial; ed.unitsChanged() }}
	}
	metric := system("view.metric", "Metres and Celsius", "Show lengths in metres and temperatures in Celsius", false)
	asOrdered := sizes("view.sizes", "Wire sizes as ordered", "", "Show every wire in the system it is ordered in")
	asOrdered.Gap = true
	ed.actions.Add(
		&action.Action{ID: "view.light", Title: "Light: paper by day", Menu: "View/Colours", Words: "theme light", Help: "Warm paper and copper",
			Checked: func() bool { return !s.Dark && !s.FollowSystem }, Run: func() { ed.setTheme(false, false) }},
		&action.Action{ID: "view.dark", Title: "Dark: slate by night", Menu: "View/Colours", Words: "theme dark", Help: "Deep slate for the garage at night",
			Checked: func() bool { return s.Dark && !s.FollowSystem }, Run: func() { ed.setTheme(true, false) }},
		&action.Action{ID: "view.system", Title: "As the system", Menu: "View/Colours", Words: "theme follow automatic light dark", Help: "Light or dark as the system prefers",
			Checked: func() bool { return s.FollowSystem }, Run: func() { ed.setTheme(s.Dark, true) }},
		&action.Action{ID: "view.larger", Title: "Everything larger", Menu: "View/Size of everything", Keys: []action.Key{action.C("Equal"), action.C("Plus")}, Words: "scale interface letters zoom bigger",
			Help: "Show letters, buttons and panels larger", Enabled: func() bool { return ed.prog.percent() < mostPercent }, Run: func() { ed.resize(ed.prog.percent() + percentStep) }},
		&action.Action{ID: "view.smaller", Title: "Everything smaller", Menu: "View/Size of everything", Keys: []action.Key{action.C("Minus")}, Words: "scale interface letters zoom",
			Help: "Show letters, buttons and panels smaller", Enabled: func() bool { return ed.prog.percent() > leastPercent }, Run: func() { ed.resize(ed.prog.percent() - percentStep) }},
	)
	for i, percent := range []int{80, 100, 120, 150, 200} {
		ed.actions.Add(&action.Action{ID: "view.percent" + strconv.Itoa(percent), Title: strconv.Itoa(percent) + " %", Menu: "View/Size of everything", Gap: i == 0, Words: "scale interface",
			Help: "Show letters, buttons and panels at this size", Checked: func() bool { return ed.prog.percent() == percent }, Run: func() { ed.resize(percent) }})
	}
	ed.actions.Add(metric, system("view.imperial", "Feet, inches and Fahrenheit", "Show lengths in feet and inches and temperatures in Fahrenheit", true),
		asOrdered,
		sizes("view.mm2", "Wire sizes in mm²", sizesMM2, "Show gauges as about so many mm²; the drawing keeps what is ordered"),
		sizes("view.awg", "Wire sizes as AWG", sizesAWG, "Show mm² as the nearest gauge; the drawing keeps what is ordered"),
	)
}

// unitsChanged shows everything in other units; the drawing itself stays.
func (ed *Editor) unitsChanged() {
	ed.keepSettings()
	ed.prog.each(func(o *Editor) {
		o.details.shape = "" // every field reads its value anew
		o.follow()
		o.drawer.studied()
		o.drawer.unitsChanged()
	})
}
