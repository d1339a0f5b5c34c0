package ui

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// cellAt returns the cell at a place in the table, or the column whose title is
// there, with row -1.
func (g *grid) cellAt(at fyne.Position) (id widget.TableCellID, ok bool) {
	if g.model.rows() == 0 {
		return id, false
	}
	head := gridCellLayout{}.MinSize(nil).Height
	title := at.Y < head
	// The toolkit knows what lies where but tells it only by selecting.
	g.OnSelected = func(got widget.TableCellID) { id, ok = got, true }
	g.UnselectAll()
	tries := []float32{at.Y}
	if title {
		tries = []float32{head + 6, head + 10}
	}
	for _, y := range tries {
		if !ok {
			g.Table.Tapped(&fyne.PointEvent{Position: fyne.NewPos(at.X, y)})
		}
	}
	g.OnSelected = nil
	g.UnselectAll()
	if title {
		id.Row = -1
	}
	return id, ok
}

// MouseDown selects: with Shift up to there, with Ctrl one more. Pressed twice,
// a cell is edited. A press on a title sorts.
func (g *grid) MouseDown(e *desktop.MouseEvent) {
	g.ed.tips.hide()
	if g.Cursor() == desktop.HResizeCursor {
		g.Table.MouseDown(e)
		return
	}
	g.closeEditor()
	id, ok := g.cellAt(e.Position)
	g.ed.win.Canvas().Focus(g)
	g.stray = false
	switch {
	case !ok:
		return
	case id.Row < 0:
		if e.Button == desktop.MouseButtonPrimary {
			g.model.sort(id.Col)
		}
		return
	}
	if e.Button == desktop.MouseButtonSecondary {
		if !g.chosen[id.Row] {
			g.pick(id.Row, id.Col, 0)
		} else {
			g.row, g.col = id.Row, id.Col
			g.Refresh()
		}
		g.menu(e.AbsolutePosition)
		return
	}
	now := g.ed.now()
	twice := id.Row == g.last.row && id.Col == g.last.col && now.Sub(g.last.at) < doubleClick && e.Modifier == 0
	g.last.at, g.last.row, g.last.col = now, id.Row, id.Col
	g.pick(id.Row, id.Col, e.Modifier)
	if twice {
		g.last.at = time.Time{}
		g.edit("")
	}
}

// Tapped comes after MouseDown, which did everything.
func (g *grid) Tapped(*fyne.PointEvent) {}

// pick takes a cell in hand and chooses its row.
func (g *grid) pick(row, col int, mods fyne.KeyModifier) {
	g.row, g.col = row, col
	switch {
	case mods&fyne.KeyModifierShift != 0:
		g.chosen = map[int]bool{}
		for i := min(g.anchor, row); i <= max(g.anchor, row); i++ {
			g.chosen[i] = true
		}
	case mods&fyne.KeyModifierShortcutDefault != 0:
		if g.chosen[row] {
			delete(g.chosen, row)
		} else {
			g.chosen[row] = true
		}
		g.anchor = row
	default:
		g.chosen, g.anchor = map[int]bool{row: true}, row
	}
	g.say(nil)
	g.Refresh()
	if g.picked != nil {
		g.picked()
	}
}

// rowsChosen returns the rows selected, from the top.
func (g *grid) rowsChosen() []int {
	rows := make([]int, 0, len(g.chosen))
	for r := range g.chosen {
		if r < g.model.rows() {
			rows = append(rows, r)
		}
	}
	slices.Sort(rows)
	return rows
}

// mark selects rows that were chosen elsewhere and brings the first in sight.
func (g *grid) mark(rows []int) {
	g.chosen = make(map[int]bool, len(rows))
	for _, r := range rows {
		g.chosen[r] = true
	}
	if len(rows) > 0 && !g.chosen[g.row] {
		g.row, g.anchor = rows[0], rows[0]
		g.bring(g.row, g.col)
	}
	g.Refresh()
}
