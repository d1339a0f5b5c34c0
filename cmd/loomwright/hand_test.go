//go:build window

package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"loomwright/schematic/export"
	"loomwright/schematic/geom"
)

// Colours of boxes and of the button that Enter would mean, by day; package ui
// keeps them in its theme.
var (
	boxColor    = color.RGBA{0xf6, 0xf0, 0xe6, 0xff}
	buttonColor = color.RGBA{0x9a, 0x4a, 0x1c, 0xff}
)

// patience is how long a test waits for the window to do something. It is long
// because other tests may run beside it.
const patience = 60 * time.Second

// hand uses a running editor as a person does: it looks at the screen, moves
// the mouse and presses keys. It never sleeps for a fixed time but looks again
// until it sees what it waits for.
type hand struct {
	t      testing.TB
	screen *screen
	app    *exec.Cmd
	ended  chan error
	log    bytes.Buffer
	window string
	rest   image.Point // where the pointer disturbs nothing
	mended int         // where the list of findings goes on
}

// start opens the editor on a file, with settings of its own.
func start(t testing.TB, program, file string) *hand {
	t.Helper()
	return startIn(t, program, t.TempDir(), file)
}

// startIn opens the editor with the settings of an earlier run.
func startIn(t testing.TB, program, settings string, args ...string) *hand {
	t.Helper()
	s, err := openScreen(os.Getenv("DISPLAY"))
	require.NoError(t, err)
	h := &hand{t: t, screen: s, ended: make(chan error, 1)}
	h.app = exec.Command(program, args...)
	h.app.Env = append(os.Environ(), "XDG_CONFIG_HOME="+settings, "FYNE_SCALE=1", "FYNE_DISABLE_DPI_DETECTION=1", "LANG=en_US.UTF-8", "LC_CTYPE=C.UTF-8")
	h.app.Stdout, h.app.Stderr = &h.log, &h.log
	require.NoError(t, h.app.Start())
	done := make(chan struct{})
	go func() {
		h.ended <- h.app.Wait()
		close(done)
	}()
	t.Cleanup(func() {
		if t.Failed() {
			h.keepPicture()
		}
		_ = h.app.Process.Kill() // it has ended by itself when all went well
		<-done
		s.conn.Close()
		if t.Failed() {
			t.Logf("the editor wrote:\n%s", h.log.String())
		}
	})
	h.wait("a window", func() bool {
		out, _ := exec.Command("xdotool", "search", "--onlyvisible", "--pid", strconv.Itoa(h.app.Process.Pid)).Output()
		ids := strings.Fields(string(out))
		if len(ids) > 0 {
			h.window = ids[len(ids)-1]
		}
		return h.window != ""
	})
	h.do("windowfocus", "--sync", h.window)
	place := map[string]int{}
	for _, line := range strings.Fields(h.do("getwindowgeometry", "--shell", h.window)) {
		k, v, _ := strings.Cut(line, "=")
		place[k], _ = strconv.Atoi(v)
	}
	h.rest = image.Pt(place["X"]+place["WIDTH"]-5, place["Y"]+5) // the free end of the menu bar
	return h
}

// keepPicture leaves what the screen shows in testdata/failed.
func (h *hand) keepPicture() {
	m, err := h.screen.look()
	path := filepath.Join("testdata", "failed", strings.ReplaceAll(h.t.Name(), "/", "-")+".png")
	if err == nil {
		err = keep(m, path)
	}
	if err != nil {
		h.t.Logf("no picture of the failure: %v", err)
		return
	}
	h.t.Logf("the screen at that moment: %s", path)
}

// kill ends the editor as a crash does: it gets to do nothing any more.
func (h *hand) kill() {
	h.t.Helper()
	require.NoError(h.t, h.app.Process.Kill())
	require.Error(h.t, h.waitEnd())
}

// wait looks until cond holds.
func (h *hand) wait(what string, cond func() bool) {
	h.t.Helper()
	for end := time.Now().Add(patience); !cond(); time.Sleep(20 * time.Millisecond) {
		select {
		case err := <-h.ended:
			h.ended <- err
			h.t.Fatalf("waiting for %s: the editor ended: %v", what, err)
		default:
		}
		if time.Now().After(end) {
			h.t.Fatalf("waited %v in vain for %s", patience, what)
		}
	}
}

// waitEnd waits until the editor has ended and returns how.
func (h *hand) waitEnd() error {
	h.t.Helper()
	select {
	case err := <-h.ended:
		return err
	case <-time.After(patience):
		h.t.Fatalf("waited %v in vain for the editor to end, %s", patience, h.busy())
		return nil
	}
}

// busy tells what an editor that does not end shows and what its window's
// goroutine does; it ends the editor.
func (h *hand) busy() string {
	title, err := exec.Command("xdotool", "getwindowname", h.window).Output()
	if err != nil {
		title = []byte("(none)")
	}
	h.keepPicture()
	_ = h.app.Process.Signal(syscall.SIGQUIT) // the runtime prints all stacks
	select {
	case err := <-h.ended:
		h.ended <- err
	case <-time.After(5 * time.Second):
		return fmt.Sprintf("its window is called %q and it prints no stacks", bytes.TrimSpace(title))
	}
	_, main, _ := strings.Cut(h.log.String(), "\ngoroutine 1 ")
	main, _, _ = strings.Cut(main, "\n\n")
	return fmt.Sprintf("its window is called %q; goroutine 1 %s", bytes.TrimSpace(title), main)
}

// do has xdotool do something and returns what it says.
func (h *hand) do(args ...string) string {
	h.t.Helper()
	ctx, stop := context.WithTimeout(context.Background(), patience)
	defer stop()
	out, err := exec.CommandContext(ctx, "xdotool", args...).CombinedOutput()
	require.NoError(h.t, err, "xdotool %s: %s", strings.Join(args, " "), out)
	return strings.TrimSpace(string(out))
}

func (h *hand) look() *image.RGBA {
	h.t.Helper()
	m, err := h.screen.look()
	require.NoError(h.t, err)
	return m
}

// click presses and releases the left button, then lets the pointer rest.
func (h *hand) click(p image.Point) {
	h.t.Helper()
	h.do("mousemove", strconv.Itoa(p.X), strconv.Itoa(p.Y), "click", "1", "mousemove", strconv.Itoa(h.rest.X), strconv.Itoa(h.rest.Y))
}

func (h *hand) key(names ...string) {
	h.t.Helper()
	h.do(append([]string{"key"}, names...)...)
}

func (h *hand) title() string { return h.do("getwindowname", h.window) }

// waitTitle waits until the title says that the drawing is saved or not.
func (h *hand) waitTitle(name string, unsaved bool) {
	h.t.Helper()
	want := name + " – "
	if unsaved {
		want = name + "* – "
	}
	h.wait("a window title that begins with "+want, func() bool { return strings.HasPrefix(h.title(), want) })
}

// sheet returns where the screen shows the sheet; empty while a box lies over
// the window, which dims it.
func (h *hand) sheet() image.Rectangle {
	h.t.Helper()
	p := export.Light()
	// Part pictures in the tray have the paper's colour too, but are small.
	return patch(h.look(), p.Paper(), 150)
}

// waitSheet waits until the sheet is to be seen and stays where it is.
func (h *hand) waitSheet() image.Rectangle {
	h.t.Helper()
	var last, now image.Rectangle
	h.wait("the sheet with no box over it", func() bool {
		last, now = now, h.sheet()
		return !now.Empty() && now == last
	})
	return now
}

// buttons returns the buttons of the box that is open, from left to right; none
// when no box is open.
func (h *hand) buttons() []image.Rectangle {
	h.t.Helper()
	m := h.look()
	box := patch(m, boxColor, 100)
	// A button has no letters nearer than high to its edge; a bar that shows
	// progress has the same colour but is wider.
	const high, wide, widest = 5, 30, 250
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for _, main := range runs(m, y, box.Min.X, box.Max.X, wide) {
			if main.c != buttonColor || main.x1-main.x0 > widest || !solid(m, main, y, high) {
				continue
			}
			var all []image.Rectangle
			for _, r := range runs(m, y+high, box.Min.X, box.Max.X, wide) {
				if r.c != boxColor {
					all = append(all, image.Rect(r.x0, y, r.x1, y+3*high))
				}
			}
			return all
		}
	}
	return nil
}

// solid reports whether the rows below a stretch are of its colour as well.
func solid(m *image.RGBA, r run, y, high int) bool {
	for i := range high {
		for x := r.x0 + high; x < r.x1-high; x++ {
			if m.RGBAAt(x, y+i) != r.c {
				return false
			}
		}
	}
	return true
}

// answer waits for a box with so many buttons and presses one of them.
func (h *hand) answer(count, which int) {
	h.t.Helper()
	b := h.buttonsOf(count)[which]
	h.click(b.Min.Add(b.Size().Div(2)))
}

// buttonsOf waits for a box with so many buttons.
func (h *hand) buttonsOf(count int) []image.Rectangle {
	h.t.Helper()
	var last, now []image.Rectangle
	h.wait("a box with "+strconv.Itoa(count)+" buttons", func() bool {
		last, now = now, h.buttons()
		return len(now) == count && len(last) == count && now[0] == last[0]
	})
	return now
}

// spot returns where on the screen a place of the sheet is.
func spot(shown image.Rectangle, sheet, p geom.Point) image.Point {
	x := float64(shown.Dx()) * float64(p.X) / float64(sheet.X)
	y := float64(shown.Dy()) * float64(p.Y) / float64(sheet.Y)
	return shown.Min.Add(image.Pt(int(x), int(y)))
}
