package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
)

// look is the window's theme: warm paper with copper by day, deep slate with
// lit copper by night. It does not follow the system: a garage lamp decides.
type look struct {
	dark   bool
	base   fyne.Theme
	colors map[fyne.ThemeColorName]swatch
	font   struct{ regular, bold, italic, mono fyne.Resource }
}

// Colour names of our own, beside those of the toolkit.
const (
	colorChrome  fyne.ThemeColorName = "lwChrome"  // strips and panels round the drawing
	colorPick    fyne.ThemeColorName = "lwPick"    // selected things on the sheet
	colorNear    fyne.ThemeColorName = "lwNear"    // the thing under the pointer
	colorGhost   fyne.ThemeColorName = "lwGhost"   // a wire being drawn
	colorFaint   fyne.ThemeColorName = "lwFaint"   // secondary text
	colorStep    fyne.ThemeColorName = "lwStep"    // bars of the drop ladder
	colorStepBig fyne.ThemeColorName = "lwStepBig" // the highest drop beside the load
)

// swatch is one colour by day and by night.
type swatch struct{ day, night color.NRGBA }

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 0xff}
}

func rgba(v uint32, a uint8) color.NRGBA {
	c := rgb(v)
	c.A = a
	return c
}

func swatches() map[fyne.ThemeColorName]swatch {
	return map[fyne.ThemeColorName]swatch{
		theme.ColorNameBackground:          {rgb(0xf1ebe0), rgb(0x1b2127)},
		colorChrome:                        {rgb(0xe8e0d2), rgb(0x232b32)},
		theme.ColorNameForeground:          {rgb(0x26221d), rgb(0xe6e1d8)},
		colorFaint:                         {rgb(0x5a5145), rgb(0xb0b7ba)},
		theme.ColorNamePlaceHolder:         {rgb(0x736857), rgb(0x8f989c)},
		theme.ColorNameDisabled:            {rgb(0x6a5f51), rgb(0x939da2)},
		theme.ColorNamePrimary:             {rgb(0x9a4a1c), rgb(0xe39a63)},
		theme.ColorNameForegroundOnPrimary: {rgb(0xfffaf2), rgb(0x1c1510)},
		theme.ColorNameButton:              {rgb(0xe0d6c5), rgb(0x2f3941)},
		theme.ColorNameDisabledButton:      {rgb(0xe8e0d2), rgb(0x262e35)},
		theme.ColorNameHover:               {rgba(0x7a4a20, 0x1e), rgba(0xffe0c0, 0x1a)},
		theme.ColorNamePressed:             {rgba(0x7a4a20, 0x3c), rgba(0xffe0c0, 0x33)},
		theme.ColorNameFocus:               {rgba(0x3a1a06, 0x59), rgba(0xfff0e0, 0x4c)},
		theme.ColorNameSelection:           {rgba(0xc98a55, 0x4d), rgba(0xb9713a, 0x4d)},
		theme.ColorNameInputBackground:     {rgb(0xfdfaf4), rgb(0x13181d)},
		theme.ColorNameInputBorder:         {rgb(0xb9ac97), rgb(0x4b5861)},
		theme.ColorNameMenuBackground:      {rgb(0xf8f3ea), rgb(0x262e35)},
		theme.ColorNameOverlayBackground:   {rgb(0xf6f0e6), rgb(0x222a31)},
		theme.ColorNameHeaderBackground:    {rgb(0xe3dac9), rgb(0x2a333b)},
		theme.ColorNameSeparator:           {rgb(0xcfc4b1), rgb(0x37424a)},
		theme.ColorNameScrollBar:           {rgba(0x5a4c3a, 0x80), rgba(0xc8d0d4, 0x66)},
		theme.ColorNameScrollBarBackground: {rgba(0x5a4c3a, 0x12), rgba(0xc8d0d4, 0x12)},
		theme.ColorNameShadow:              {rgba(0x3a2c18, 0x40), rgba(0x000000, 0x80)},
		theme.ColorNameHyperlink:           {rgb(0x8a3f14), rgb(0xe9a878)},
		theme.ColorNameError:               {rgb(0x9c1c17), rgb(0xff9a8c)},
		theme.ColorNameForegroundOnError:   {rgb(0xffffff), rgb(0x2a0b08)},
		theme.ColorNameWarning:             {rgb(0x734a00), rgb(0xf0b94a)},
		theme.ColorNameForegroundOnWarning: {rgb(0xffffff), rgb(0x241a04)},
		theme.ColorNameSuccess:             {rgb(0x25593a), rgb(0x8ccf9a)},
		theme.ColorNameForegroundOnSuccess: {rgb(0xffffff), rgb(0x0c1f10)},
		colorPick:                          {rgb(0x0b6bb8), rgb(0x67b7ff)},
		colorNear:                          {rgba(0x0b6bb8, 0x99), rgba(0x67b7ff, 0x99)},
		colorGhost:                         {rgb(0xb0481a), rgb(0xffa468)},
		colorStep:                          {rgb(0xb98a63), rgb(0x8c6a4e)},
		colorStepBig:                       {rgb(0xa8201a), rgb(0xff8a7a)},
	}
}

func newLook(dark bool) *look {
	l := &look{dark: dark, base: theme.DefaultTheme(), colors: swatches()}
	l.font.regular = fyne.NewStaticResource("Go-Regular.ttf", goregular.TTF)
	l.font.bold = fyne.NewStaticResource("Go-Bold.ttf", gobold.TTF)
	l.font.italic = fyne.NewStaticResource("Go-Italic.ttf", goitalic.TTF)
	l.font.mono = fyne.NewStaticResource("Go-Mono.ttf", gomono.TTF)
	return l
}

// Color answers for our own variant, whatever the system prefers.
func (l *look) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	if s, ok := l.colors[name]; ok {
		c := s.day
		if l.dark {
			c = s.night
		}
		if name == theme.ColorNameForeground {
			return ink{c}
		}
		return c
	}
	return l.base.Color(name, l.variant())
}

// ink is an opaque colour that menus can thin. The toolkit makes the colour of
// shortcuts in menus from that of text: it takes 95 % of the 16-bit alpha and
// keeps the lower 8 bits, which leaves next to nothing of 0xffff. Of this alpha,
// as good as opaque, it leaves 0xfe.
type ink struct{ color.NRGBA }

func (i ink) RGBA() (r, g, b, a uint32) {
	r, g, b, _ = i.NRGBA.RGBA()
	const most = 0xffc9
	return min(r, most), min(g, most), min(b, most), most
}

func (l *look) variant() fyne.ThemeVariant {
	if l.dark {
		return theme.VariantDark
	}
	return theme.VariantLight
}

func (l *look) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Monospace:
		return l.font.mono
	case s.Symbol:
		return l.base.Font(s)
	case s.Bold:
		return l.font.bold
	case s.Italic:
		return l.font.italic
	}
	return l.font.regular
}

func (l *look) Icon(name fyne.ThemeIconName) fyne.Resource { return l.base.Icon(name) }

// Size keeps the panels dense, so that the drawing gets the room.
func (l *look) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNameText:
		return 13
	case theme.SizeNameCaptionText:
		return 11
	case theme.SizeNameSubHeadingText:
		return 15
	case theme.SizeNameHeadingText:
		return 20
	case theme.SizeNamePadding:
		return 3
	case theme.SizeNameInnerPadding:
		return 6
	case theme.SizeNameLineSpacing:
		return 3
	case theme.SizeNameInlineIcon:
		return 18
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 3
	case theme.SizeNameScrollBar:
		return 12
	case theme.SizeNameScrollBarSmall:
		return 5
	}
	return l.base.Size(name)
}
