package action

import "strings"

// Mod is a set of modifier keys.
type Mod uint8

const (
	Ctrl Mod = 1 << iota // Command on a Mac
	Shift
	Alt
)

// Key is one key with its modifiers. Name is the plain name of the key:
// "A", "7", "F1", "Space", "Escape", "Delete", "Left", "Plus", "Minus".
type Key struct {
	Mods Mod
	Name string
}

// K is short for a key without modifiers.
func K(name string) Key { return Key{Name: name} }

// C is short for a key with Ctrl.
func C(name string) Key { return Key{Ctrl, name} }

// CS is short for a key with Ctrl and Shift.
func CS(name string) Key { return Key{Ctrl | Shift, name} }

// String prints the key as a menu does: "Ctrl+Shift+S", "F1", "Esc".
func (k Key) String() string {
	var b strings.Builder
	for _, m := range modNames() {
		if k.Mods&m.mod != 0 {
			b.WriteString(m.name)
		}
	}
	switch k.Name {
	case "Plus":
		b.WriteString("+")
	case "Minus":
		b.WriteString("−")
	case "Escape":
		b.WriteString("Esc")
	case "Left":
		b.WriteString("←")
	case "Right":
		b.WriteString("→")
	case "Up":
		b.WriteString("↑")
	case "Down":
		b.WriteString("↓")
	default:
		b.WriteString(k.Name)
	}
	return b.String()
}
