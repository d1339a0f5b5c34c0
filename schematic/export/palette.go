// Package export shows a display list: it paints it to pixels for the screen
// and for PNG, and writes it as SVG and PDF, so that screen and paper cannot
// differ.
//
// Start with [Painter] for pixels; [PNG], [SVG] and [PDF] write files. All of
// them take millimetres from [draw.List] and colours from a [Palette].
package export

import (
	"image/color"

	"loomwright/schematic/draw"
)

// Palette gives every ink its colour. All its colours are opaque; the zero
// value paints black on black, so take one of [Light], [Dark] or [Print].
type Palette struct {
	Desk color.RGBA // around the sheet
	Dot  color.RGBA // grid dots on the sheet
	Inks [draw.InkCount]color.RGBA
}

// Color returns the colour of an ink. InkOwn and unknown inks use own.
func (p *Palette) Color(ink draw.Ink, own color.RGBA) color.RGBA {
	if ink < draw.InkCount && ink != draw.InkOwn {
		return p.Inks[ink]
	}
	return own
}

// Paper returns the colour of the sheet.
func (p *Palette) Paper() color.RGBA { return p.Inks[draw.InkPaper] }

// afar returns the colour of a wire that is painted a single pixel wide, without
// its edges: one that is nearly the paper's takes half of theirs.
func (p *Palette) afar(c color.RGBA) color.RGBA {
	paper := p.Paper()
	for _, d := range [...]int{int(c.R) - int(paper.R), int(c.G) - int(paper.G), int(c.B) - int(paper.B)} {
		if d > tellApart || d < -tellApart {
			return c
		}
	}
	edge := p.Inks[draw.InkWireRim]
	mix := func(a, b uint8) uint8 { return uint8((int(a) + int(b)) / 2) }
	return color.RGBA{mix(c.R, edge.R), mix(c.G, edge.G), mix(c.B, edge.B), 0xff}
}

// tellApart is by how much, in 255ths, a colour must differ from the paper's in
// red, green or blue for a thin line of it to be seen.
const tellApart = 64

func rgb(hex uint32) color.RGBA {
	return color.RGBA{uint8(hex >> 16), uint8(hex >> 8), uint8(hex), 0xff}
}

// Light is warm paper with near-black symbols and copper for the traced
// circuit.
func Light() Palette {
	return Palette{
		Desk: rgb(0xE4DED1), Dot: rgb(0xC9BFA9),
		Inks: [draw.InkCount]color.RGBA{
			draw.InkSymbol:  rgb(0x221E1A),
			draw.InkText:    rgb(0x1B1815),
			draw.InkFaint:   rgb(0x6A6156),
			draw.InkFrame:   rgb(0x857A6A),
			draw.InkPaper:   rgb(0xFBF8F1),
			draw.InkFill:    rgb(0xF3ECDD),
			draw.InkWireRim: rgb(0x6E665B),
			draw.InkJoint:   rgb(0x3A2A1C),
			draw.InkError:   rgb(0xB3201B),
			draw.InkWarn:    rgb(0x7A5C00),
			draw.InkInfo:    rgb(0x1F5C93),
			draw.InkTrace:   rgb(0xC06A2B),
			draw.InkCurrent: rgb(0x00665C),
			draw.InkBare:    rgb(0xFBF8F1),
		},
	}
}

// Dark is deep slate for the garage at night.
func Dark() Palette {
	return Palette{
		Desk: rgb(0x14181C), Dot: rgb(0x3B444D),
		Inks: [draw.InkCount]color.RGBA{
			draw.InkSymbol:  rgb(0xE6E1D6),
			draw.InkText:    rgb(0xF1ECE2),
			draw.InkFaint:   rgb(0xA3A79F),
			draw.InkFrame:   rgb(0x7C8790),
			draw.InkPaper:   rgb(0x1F262C),
			draw.InkFill:    rgb(0x2A333B),
			draw.InkWireRim: rgb(0x98A2A8),
			draw.InkJoint:   rgb(0xF0D9BE),
			draw.InkError:   rgb(0xFF7A6B),
			draw.InkWarn:    rgb(0xF0B03C),
			draw.InkInfo:    rgb(0x79B8EE),
			draw.InkTrace:   rgb(0xE08B4A),
			draw.InkCurrent: rgb(0x4FD0BB),
			draw.InkBare:    rgb(0x1F262C),
		},
	}
}

// Print is white paper. Lines are darker than on screen, since thin grey lines
// break up in print.
func Print() Palette {
	return Palette{
		Desk: rgb(0xFFFFFF), Dot: rgb(0xD0D0D0),
		Inks: [draw.InkCount]color.RGBA{
			draw.InkSymbol:  rgb(0x000000),
			draw.InkText:    rgb(0x000000),
			draw.InkFaint:   rgb(0x505050),
			draw.InkFrame:   rgb(0x606060),
			draw.InkPaper:   rgb(0xFFFFFF),
			draw.InkFill:    rgb(0xF4F4F2),
			draw.InkWireRim: rgb(0x5A5A5A),
			draw.InkJoint:   rgb(0x111111),
			draw.InkError:   rgb(0xA81812),
			draw.InkWarn:    rgb(0x6C5100),
			draw.InkInfo:    rgb(0x174F82),
			draw.InkTrace:   rgb(0xB55E20),
			draw.InkCurrent: rgb(0x005A51),
			draw.InkBare:    rgb(0xFFFFFF),
		},
	}
}
