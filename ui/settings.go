package ui

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// maxRecent is how many files the recent list remembers.
const maxRecent = 10

// Systems that wire sizes can be shown in.
const (
	sizesMM2 = "mm2"
	sizesAWG = "AWG"
)

// Settings are the user's own choices, kept between runs in one small file.
// They are never part of a drawing.
type Settings struct {
	Dark bool `json:"dark"`
	// Keys are the keys of commands that are not as delivered, by command.
	Keys map[string][]string `json:"keys,omitempty"`
	// Commands are those used last, the newest first.
	Commands []string `json:"commands,omitempty"`

	Recent      []string `json:"recent,omitempty"`
	CautionRead bool     `json:"caution_read"`
	WheelPans   bool     `json:"wheel_pans"`
	HideGrid    bool     `json:"hide_grid"`
	HideGuides  bool     `json:"hide_guides"`
	Imperial    bool     `json:"imperial"`
	// Sizes says in which system wire sizes are shown: as ordered, or one of
	// sizesMM2 and sizesAWG.
	Sizes string `json:"sizes,omitempty"`
	// FollowSystem takes light or dark from the system instead of Dark.
	FollowSystem bool `json:"follow_system,omitempty"`
	// Percent is the size of everything in the window; 0 is 100.
	Percent int `json:"percent,omitempty"`
	// SkipWelcome says that the welcome is not to be shown at the start.
	SkipWelcome bool `json:"skip_welcome,omitempty"`
	// Overview shows the small picture of the whole sheet.
	Overview    bool    `json:"overview,omitempty"`
	HideTray    bool    `json:"hide_tray"`
	HideDetails bool    `json:"hide_details"`
	HideDrawer  bool    `json:"hide_drawer"`
	Width       float32 `json:"width,omitempty"`
	Height      float32 `json:"height,omitempty"`
	// Sizes the user gave the panels, in window points; 0 is as delivered.
	TrayWidth    float32 `json:"tray_width,omitempty"`
	DetailsWidth float32 `json:"details_width,omitempty"`
	DrawerHeight float32 `json:"drawer_height,omitempty"`
	// Folder is where file dialogs open.
	Folder string `json:"folder,omitempty"`
	// States are the operating states the recent files were last looked at in.
	States map[string]string `json:"states,omitempty"`
}

// settingsStore reads and writes Settings in a folder. An empty folder keeps
// nothing, which is what tests and a system without a home get.
type settingsStore struct {
	folder string
	Settings
}

// settingsFolder returns the program's folder under the user's configuration.
func settingsFolder() string {
	base, err := os.UserConfigDir()
	if err != nil {
		return ""
	}
	return filepath.Join(base, "loomwright")
}

// openSettings reads the settings. A missing file gives the defaults; a file
// that cannot be read gives the defaults and the reason.
func openSettings(folder string) (*settingsStore, error) {
	s := &settingsStore{folder: folder}
	if folder == "" {
		return s, nil
	}
	b, err := os.ReadFile(s.file())
	if errors.Is(err, fs.ErrNotExist) {
		return s, nil
	}
	if err == nil {
		err = json.Unmarshal(b, &s.Settings)
	}
	if err != nil {
		s.Settings = Settings{}
		return s, fmt.Errorf("settings in %s could not be read, the usual ones are used: %w", s.file(), err)
	}
	s.Recent = s.Recent[:min(len(s.Recent), maxRecent)]
	return s, nil
}

func (s *settingsStore) file() string { return filepath.Join(s.folder, "settings.json") }

// save writes the settings whole or not at all.
func (s *settingsStore) save() error {
	if s.folder == "" {
		return nil
	}
	b, err := json.MarshalIndent(s.Settings, "", "  ")
	if err != nil {
		return fmt.Errorf("settings: %w", err)
	}
	if err := os.MkdirAll(s.folder, 0o755); err != nil {
		return fmt.Errorf("settings could not be kept: %w", err)
	}
	tmp, err := os.CreateTemp(s.folder, "settings-*.json")
	if err != nil {
		return fmt.Errorf("settings could not be kept: %w", err)
	}
	_, werr := tmp.Write(append(b, '\n'))
	cerr := tmp.Close()
	if err := errors.Join(werr, cerr); err != nil {
		os.Remove(tmp.Name())
		return fmt.Errorf("settings could not be kept: %w", err)
	}
	if err := os.Rename(tmp.Name(), s.file()); err != nil {
		os.Remove(tmp.Name())
		return fmt.Errorf("settings could not be kept: %w", err)
	}
	return nil
}

// remember puts a file at the head of the recent list.
func (s *settingsStore) remember(path string) {
	s.forget(path)
	s.Recent = append([]string{path}, s.Recent...)
	s.Recent = s.Recent[:min(len(s.Recent), maxRecent)]
	s.Folder = filepath.Dir(path)
	for p := range s.States {
		if !slices.Contains(s.Recent, p) {
			delete(s.States, p)
		}
	}
}

// rememberState keeps the operating state a file is looked at in.
func (s *settingsStore) rememberState(path, state string) {
	if s.States == nil {
		s.States = map[string]string{}
	}
	s.States[path] = state
}

// maxCommands is how many commands the command list shows first.
const maxCommands = 8

// rememberCommand puts a command at the head of those used last. It is written
// down with the next change of the settings.
func (s *settingsStore) rememberCommand(id string) {
	rest := slices.DeleteFunc(slices.Clone(s.Commands), func(o string) bool { return o == id })
	s.Commands = append([]string{id}, rest...)
	s.Commands = s.Commands[:min(len(s.Commands), maxCommands)]
}

// forget takes a file off the recent list.
func (s *settingsStore) forget(path string) {
	s.Recent = slices.DeleteFunc(slices.Clone(s.Recent), func(p string) bool { return p == path })
}
