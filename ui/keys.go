package ui

import (
	"runtime"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"loomwright/ui/action"
)

// keyNames are the toolkit's names of keys that we call otherwise.
func keyNames() map[string]fyne.KeyName {
	return map[string]fyne.KeyName{
		"Plus": fyne.KeyPlus, "Minus": fyne.KeyMinus, "Equal": fyne.KeyEqual, "Comma": fyne.KeyComma, "Period": fyne.KeyPeriod,
		"Enter": fyne.KeyReturn, "PageUp": fyne.KeyPageUp, "PageDown": fyne.KeyPageDown,
	}
}

// fyneKey returns the toolkit's name of a key.
func fyneKey(name string) fyne.KeyName {
	if n, ok := keyNames()[name]; ok {
		return n
	}
	return fyne.KeyName(name)
}

// ourKey returns the action key a key event means.
func ourKey(name fyne.KeyName, mods fyne.KeyModifier) action.Key {
	k := action.Key{Name: string(name)}
	if name == fyne.KeyEnter {
		k.Name = "Enter"
	}
	for ours, theirs := range keyNames() {
		if theirs == name {
			k.Name = ours
		}
	}
	if mods&fyne.KeyModifierShortcutDefault != 0 {
		k.Mods |= action.Ctrl
	}
	if mods&fyne.KeyModifierShift != 0 {
		k.Mods |= action.Shift
	}
	if mods&fyne.KeyModifierAlt != 0 {
		k.Mods |= action.Alt
	}
	return k
}

// shortcut returns what the toolkit sends for a key. The six editing keys have
// types of their own there; a menu item that shall get them must name those.
func shortcut(k action.Key) fyne.Shortcut {
	if k.Mods == action.Ctrl {
		switch k.Name {
		case "Z":
			return &fyne.ShortcutUndo{}
		case "Y":
			return &fyne.ShortcutRedo{}
		case "X":
			return &fyne.ShortcutCut{}
		case "C":
			return &fyne.ShortcutCopy{}
		case "V":
			return &fyne.ShortcutPaste{}
		case "A":
			return &fyne.ShortcutSelectAll{}
		}
	}
	return &desktop.CustomShortcut{KeyName: fyneKey(k.Name), Modifier: modsOf(k)}
}

// modsOf returns the modifiers of a key as the toolkit has them.
func modsOf(k action.Key) fyne.KeyModifier {
	var m fyne.KeyModifier
	if k.Mods&action.Ctrl != 0 {
		m |= fyne.KeyModifierShortcutDefault
	}
	if k.Mods&action.Shift != 0 {
		m |= fyne.KeyModifierShift
	}
	if k.Mods&action.Alt != 0 {
		m |= fyne.KeyModifierAlt
	}
	return m
}

// keyText prints a key as this system writes it.
func keyText(k action.Key) string {
	if runtime.GOOS == "darwin" && k.Mods&action.Ctrl != 0 {
		k.Mods &^= action.Ctrl
		return "⌘" + k.String()
	}
	return k.String()
}

// heldMods returns the modifier keys held just now; drag and scroll events do
// not carry them.
func heldMods() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}
