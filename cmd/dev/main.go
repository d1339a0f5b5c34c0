// Command dev is the project's own task runner: it starts the editor from a
// fresh checkout and runs all tests, installing what is missing first.
//
//	go run ./cmd/dev start   build and open the editor on the demo harness
//	go run ./cmd/dev test    run every test, window tests included
//	go run ./cmd/dev generate -wires 1000 -o FILE   write a sample harness
package main

import (
	"bufio"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

const usage = `usage: go run ./cmd/dev [-yes] start | test [go test arguments] | generate -wires N -seed S -o FILE

start   install what the editor needs, build it and open it on the demo harness;
        without a display, check the demo and write its drawing as PNG, SVG and PDF
test    install what the tests need and run all of them, window tests included
generate
        write a sample harness of N wires, for trials of large drawings; the same seed gives the same file
-yes    install missing packages without asking
`

func main() {
	yes := flag.Bool("yes", false, "install missing packages without asking")
	flag.Usage = func() { fmt.Fprint(os.Stderr, usage) }
	flag.Parse()
	args := flag.Args()
	// "start -yes" is as good as "-yes start".
	var rest []string
	for _, a := range args {
		if a == "-yes" || a == "--yes" {
			*yes = true
			continue
		}
		rest = append(rest, a)
	}
	if len(rest) == 0 {
		flag.Usage()
		os.Exit(2)
	}
	if rest[0] == "generate" { // its file is named from where it is run
		if err := generate(rest[1:]); err != nil {
			fail(err)
		}
		return
	}
	if err := enterRoot(); err != nil {
		fail(err)
	}
	in := installer{yes: *yes, in: os.Stdin, out: os.Stderr}
	var err error
	switch rest[0] {
	case "start":
		err = start(in)
	case "test":
		err = test(in, rest[1:])
	default:
		flag.Usage()
		os.Exit(2)
	}
	if err != nil {
		fail(err)
	}
}

func fail(err error) {
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() > 0 {
		os.Exit(exit.ExitCode()) // the command has said what is wrong
	}
	fmt.Fprintln(os.Stderr, "dev:", err)
	os.Exit(1)
}

// enterRoot makes the module's folder the working directory.
func enterRoot() error {
	out, err := exec.Command("go", "env", "GOMOD").Output()
	if err != nil {
		return fmt.Errorf("find the module: %w", err)
	}
	mod := strings.TrimSpace(string(out))
	if filepath.Base(mod) != "go.mod" {
		return errors.New("run this inside the checkout: no go.mod found here or above")
	}
	return os.Chdir(filepath.Dir(mod))
}

// buildPackages are the Debian packages that compiling the editor needs.
var buildPackages = []string{"gcc", "libc6-dev", "pkg-config", "libgl1-mesa-dev", "libx11-dev", "libxcursor-dev",
	"libxrandr-dev", "libxinerama-dev", "libxi-dev", "libxxf86vm-dev"}

// testPackages are needed on top for the window tests and for reading back
// exported pages.
var testPackages = []string{"xvfb", "xdotool", "libgl1-mesa-dri", "poppler-utils", "librsvg2-bin"}

func run(name string, args ...string) error {
	c := exec.Command(name, args...)
	c.Stdin, c.Stdout, c.Stderr = os.Stdin, os.Stdout, os.Stderr
	return c.Run()
}

// installer adds missing Debian packages.
type installer struct {
	yes bool
	in  io.Reader
	out io.Writer
}

// need makes sure that all packages are installed, or says which are missing.
func (i installer) need(packages []string) error {
	if _, err := exec.LookPath("dpkg-query"); err != nil {
		fmt.Fprintf(i.out, "dev: this is not a Debian system; make sure it has what these packages hold: %s\n", strings.Join(packages, " "))
		return nil
	}
	missing := missingOf(packages, installed)
	if len(missing) == 0 {
		return nil
	}
	fmt.Fprintf(i.out, "dev: missing packages: %s\n", strings.Join(missing, " "))
	root := os.Geteuid() == 0
	if !root && !i.yes && !confirm(i.in, i.out, "install them with apt-get (asks for your password)?") {
		return fmt.Errorf("not installed: run  sudo apt-get install %s  and start again", strings.Join(missing, " "))
	}
	for _, args := range [][]string{{"apt-get", "update", "-qq"}, append([]string{"apt-get", "install", "-y", "-qq", "--no-install-recommends"}, missing...)} {
		if !root {
			args = append([]string{"sudo"}, args...)
		}
		c := exec.Command(args[0], args[1:]...)
		c.Env = append(os.Environ(), "DEBIAN_FRONTEND=noninteractive")
		c.Stdin, c.Stdout, c.Stderr = os.Stdin, i.out, i.out
		if err := c.Run(); err != nil {
			return fmt.Errorf("%s: %w", strings.Join(args, " "), err)
		}
	}
	return nil
}

func missingOf(packages []string, has func(string) bool) []string {
	var missing []string
	for _, p := range packages {
		if !has(p) {
			missing = append(missing, p)
		}
	}
	return missing
}

func installed(pkg string) bool {
	out, err := exec.Command("dpkg-query", "-W", "-f=${db:Status-Status}", pkg).Output()
	return err == nil && strings.TrimSpace(string(out)) == "installed"
}

func confirm(in io.Reader, out io.Writer, question string) bool {
	fmt.Fprintf(out, "dev: %s [y/N] ", question)
	line, _ := bufio.NewReader(in).ReadString('\n')
	switch strings.ToLower(strings.TrimSpace(line)) {
	case "y", "yes":
		return true
	}
	return false
}
