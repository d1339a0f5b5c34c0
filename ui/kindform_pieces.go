package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"loomwright/schematic/draft"
)

// pieces is the row about the pieces of the symbol, each of which may stand
// elsewhere on the sheets. What is drawn is chosen above the picture.
func (f *kindForm) pieces() fyne.CanvasObject {
	f.picture = newPick(f.ed.typedKey, nil, nil)
	f.picture.OnChanged = func(title string) {
		if f.quiet {
			return
		}
		for _, p := range f.draft.Pictures() {
			if p.Title() == title {
				f.show(p)
			}
		}
	}
	f.piece = newEntry(nil)
	f.piece.changed = func(s string) {
		if f.quiet {
			return
		}
		f.complain(f.draft.RenamePiece(strings.TrimSpace(s)))
		f.changed()
	}
	f.fields = append(f.fields, f.piece)
	button := func(text, tip string, deed func() error) fyne.CanvasObject {
		return newButton(f.ed.tips, text, "", tip, func() {
			f.complain(deed())
			f.show(f.draft.Shown())
		})
	}
	add := button("Add a piece", "One more piece of the symbol that can stand elsewhere on the sheets, as a contact apart from its coil", f.draft.AddPiece)
	remove := button("Remove this piece", "Take the piece shown out, once no pin stands in it", f.draft.RemovePiece)
	f.named = container.NewBorder(nil, nil, nil, remove, f.piece)
	f.rowOfPieces = row("Piece", container.NewBorder(nil, nil, nil, add, f.named))
	return f.rowOfPieces
}

// show takes another picture in hand.
func (f *kindForm) show(p draft.Picture) {
	f.draft.Show(p)
	f.fresh = -1
	f.strokes.closeEditor()
	f.strokes.row = 0
	f.strokes.mark(nil)
	f.quiet = true
	f.piece.SetText(f.draft.Shown().Piece)
	f.quiet = false
	f.changed()
}

// showPictures follows what there is to be drawn.
func (f *kindForm) showPictures() {
	all, at := f.draft.Pictures(), f.draft.Shown()
	var titles []string
	for _, p := range all {
		titles = append(titles, p.Title())
	}
	if !slices.Equal(titles, f.picture.Options) {
		f.picture.SetOptions(titles)
	}
	f.picture.SetSelected(at.Title())
	show(f.picture, len(all) > 1)
	k := f.draft.Kind()
	pieces := len(k.Sections)
	show(f.rowOfPieces, !k.OwnPins) // each part of those falls into boxes as its pins say
	show(f.named, pieces > 1 && at.Role == "")
	if !f.piece.inside { // what is being typed may not be a name yet
		f.piece.SetText(at.Piece)
	}
}
