// Package ui is the editor's window: the drawing, the panels round it, menus,
// dialogs and files. It is the only package that knows the toolkit.
//
// Start with [New], which opens an [Editor] window for a [fyne.App]; all
// decisions about the drawing itself are made in the packages below, so that
// this one only shows and asks.
package ui
