//go:build window

package main

import (
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// screen reads what an X display shows: just enough of the X11 protocol to ask
// for a picture of the whole screen, which takes milliseconds and so can be
// asked for again and again until it shows what a test waits for.
type screen struct {
	conn net.Conn
	root uint32
	w, h int
}

// openScreen connects to a local display such as ":7". A display that wants a
// password is refused: tests belong on a virtual one.
func openScreen(display string) (*screen, error) {
	num, _, _ := strings.Cut(strings.TrimPrefix(display, ":"), ".")
	if _, err := strconv.Atoi(num); err != nil || !strings.HasPrefix(display, ":") {
		return nil, fmt.Errorf("no local display (DISPLAY is %q): run  go run ./cmd/dev test  which brings a virtual screen", display)
	}
	// The abstract socket first, as the X libraries do: it is there even where
	// the file in /tmp has been swept away.
	conn, err := net.Dial("unix", "@/tmp/.X11-unix/X"+num)
	if err != nil {
		conn, err = net.Dial("unix", "/tmp/.X11-unix/X"+num)
	}
	if err != nil {
		return nil, fmt.Errorf("display %s: %w", display, err)
	}
	s := &screen{conn: conn}
	if err := s.greet(); err != nil {
		conn.Close()
		return nil, fmt.Errorf("display %s: %w", display, err)
	}
	return s, nil
}

// greet opens the connection and reads which window is the whole screen. The
// numbers are places in the setup block of the X11 protocol, version 11,
// chapter 8.
func (s *screen) greet() error {
	if _, err := s.conn.Write([]byte{'l', 0, 11, 0, 0, 0, 0, 0, 0, 0, 0, 0}); err != nil {
		return err
	}
	head := make([]byte, 8)
	if _, err := io.ReadFull(s.conn, head); err != nil {
		return err
	}
	body := make([]byte, 4*int(binary.LittleEndian.Uint16(head[6:])))
	if _, err := io.ReadFull(s.conn, body); err != nil {
		return err
	}
	if head[0] != 1 {
		return fmt.Errorf("refused: %s", strings.Trim(string(body), "\x00\n"))
	}
	vendor, formats := int(binary.LittleEndian.Uint16(body[16:])), int(body[21])
	at := 32 + (vendor+3)&^3 + 8*formats
	s.root = binary.LittleEndian.Uint32(body[at:])
	s.w, s.h = int(binary.LittleEndian.Uint16(body[at+20:])), int(binary.LittleEndian.Uint16(body[at+22:]))
	if depth := body[at+38]; depth != 24 {
		return fmt.Errorf("the screen has %d bits a pixel, not 24", depth)
	}
	return nil
}

// look returns a picture of the screen.
func (s *screen) look() (*image.RGBA, error) {
	const getImage, pixels, allPlanes = 73, 2, 0xffffffff
	ask := []byte{getImage, pixels, 5, 0}
	ask = binary.LittleEndian.AppendUint32(ask, s.root)
	for _, v := range []int{0, 0, s.w, s.h} {
		ask = binary.LittleEndian.AppendUint16(ask, uint16(v))
	}
	ask = binary.LittleEndian.AppendUint32(ask, allPlanes)
	if _, err := s.conn.Write(ask); err != nil {
		return nil, fmt.Errorf("look at the screen: %w", err)
	}
	const failed, answer = 0, 1 // anything else is news of the keyboard, sent to all
	head := make([]byte, 32)
	for first := true; first || head[0] > answer; first = false {
		if _, err := io.ReadFull(s.conn, head); err != nil {
			return nil, fmt.Errorf("look at the screen: %w", err)
		}
	}
	if size := 4 * int(binary.LittleEndian.Uint32(head[4:])); head[0] == failed || size != 4*s.w*s.h {
		return nil, fmt.Errorf("look at the screen: answer of kind %d with %d bytes", head[0], size)
	}
	m := image.NewRGBA(image.Rect(0, 0, s.w, s.h))
	if _, err := io.ReadFull(s.conn, m.Pix); err != nil {
		return nil, fmt.Errorf("look at the screen: %w", err)
	}
	for i := 0; i < len(m.Pix); i += 4 { // blue, green, red, unused
		m.Pix[i], m.Pix[i+2], m.Pix[i+3] = m.Pix[i+2], m.Pix[i], 0xff
	}
	return m, nil
}

// keep writes a picture for somebody to look at.
func keep(m image.Image, path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	err = png.Encode(f, m)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	return err
}

// run is a stretch of one colour in a pixel row, from x0 up to x1.
type run struct {
	x0, x1 int
	c      color.RGBA
}

// runs returns the stretches of at least most pixels between x0 and x1 of a row.
func runs(m *image.RGBA, y, x0, x1, least int) []run {
	var all []run
	for x := x0; x < x1; {
		r := run{x, x + 1, m.RGBAAt(x, y)}
		for r.x1 < x1 && m.RGBAAt(r.x1, y) == r.c {
			r.x1++
		}
		if r.x1-r.x0 >= least {
			all = append(all, r)
		}
		x = r.x1
	}
	return all
}

// patch returns the box round all stretches of a colour that are at least that
// long; it is empty when there are none.
func patch(m *image.RGBA, c color.RGBA, least int) image.Rectangle {
	var box image.Rectangle
	for y := m.Rect.Min.Y; y < m.Rect.Max.Y; y++ {
		for _, r := range runs(m, y, m.Rect.Min.X, m.Rect.Max.X, least) {
			if r.c == c {
				box = box.Union(image.Rect(r.x0, y, r.x1, y+1))
			}
		}
	}
	return box
}
