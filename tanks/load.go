package tanks

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Demo is the name of the built-in rig that commands take when no file is
// named.
const Demo = "demo"

//go:embed library
var library embed.FS

// Names returns the names in the built-in library, rigs and tanks apart.
func Names() (rigs, tanks []string) {
	entries, err := library.ReadDir("library")
	if err != nil {
		return nil, nil
	}
	for _, e := range entries {
		name, isToml := strings.CutSuffix(e.Name(), ".toml")
		if !isToml {
			continue
		}
		text, err := library.ReadFile("library/" + e.Name())
		if err != nil {
			continue
		}
		if strings.Contains(string(text), "\n[sender]") {
			rigs = append(rigs, name)
		} else {
			tanks = append(tanks, name)
		}
	}
	return rigs, tanks
}

// Load reads the rig of a path or of a name in the built-in library, with
// overrides of the form key=value.
func Load(name string, overrides []string) (*Rig, error) {
	d, err := open(name, overrides)
	if err != nil {
		return nil, err
	}
	return build(d)
}

// Read reads a text as the file of a rig at a path would be, without that file.
func Read(path, text string) (*Rig, error) {
	d, err := parse(path, text)
	if err != nil {
		return nil, err
	}
	dir := filepath.Dir(path)
	d.sources = map[string]source{path: {dir: dir}}
	if err := d.graftNamed(dir); err != nil {
		return nil, err
	}
	return build(d)
}

// Check tells what [Read] would refuse.
func Check(path, text string) error {
	_, err := Read(path, text)
	return err
}

// DemoLog is the name of the built-in fill log of the built-in demo rig.
const DemoLog = "demo-log"

// ReadLog reads the file of a fill log: a path, or the name of the built-in one.
func ReadLog(name string) ([]byte, error) {
	data, err := os.ReadFile(name)
	if err != nil && name == DemoLog {
		return library.ReadFile("library/" + name + ".csv")
	}
	if err != nil {
		return nil, cause(err)
	}
	return data, nil
}

// LoadTank reads the tank, and its mount, of a rig or of a tank file. What else
// a rig holds is checked for unknown tables only.
func LoadTank(name string, overrides []string) (*Tank, error) {
	d, err := open(name, overrides)
	if err != nil {
		return nil, err
	}
	t := d.root()
	readFormat(t)
	title, _ := t.text("name")
	mount := readMount(t.table("mount"))
	for _, other := range []string{"fuel", "sender", "wiring", "conditioner", "gauge", "use", "fitted"} {
		t.has(other)
	}
	if !t.has("tank") {
		t.missing("tank", "a [tank] with file = the name of a tank, or [[tank.body]]")
	}
	body := t.table("tank")
	t.done()
	if d.err != nil {
		return nil, d.err
	}
	tank := readTank(body, mount)
	if tank.Name == "" {
		tank.Name = title
	}
	if d.err != nil {
		return nil, d.err
	}
	return &tank, nil
}

// open reads a file, and the tank file it names.
func open(name string, overrides []string) (*document, error) {
	d, dir, err := read(name, "")
	if err != nil {
		return nil, err
	}
	// Which tank it is comes before what is changed in it.
	var which, what []string
	for _, o := range overrides {
		if key := overrideTarget(o); key == "tank" || key == "tank.file" {
			which = append(which, o)
		} else {
			what = append(what, o)
		}
	}
	if err := d.override(which...); err != nil {
		return nil, err
	}
	if err := d.graftNamed(dir); err != nil {
		return nil, err
	}
	return d, d.override(what...)
}

// graftNamed reads the tank file that a rig names, if it names one.
func (d *document) graftNamed(dir string) error {
	if tank, ok := d.tree["tank"].(map[string]any); ok {
		if file, named := tank["file"]; named {
			return d.graftTank(file, dir)
		}
	}
	return nil
}

// graftTank reads the tank file that a rig names.
func (d *document) graftTank(file any, dir string) error {
	name, ok := file.(string)
	if !ok {
		d.fail("tank.file", "%s, expected the path of a tank file, or a name in the built-in library", describe(file))
		return d.err
	}
	other, _, err := read(name, dir)
	if err != nil {
		var e *Error
		if errors.As(err, &e) && e.Line == 0 && e.Key == "" {
			d.fail("tank.file", "%s", e.Reason)
			return d.err
		}
		return err
	}
	root := other.root()
	readFormat(root)
	root.has("name")
	inner := root.table("tank")
	root.done()
	if other.err != nil {
		return other.err
	}
	if inner.has("file") {
		inner.fail("file", "a tank file cannot name another, expected [[tank.body]]")
		return other.err
	}
	if len(inner.values) == 0 {
		root.missing("tank", "one or more [[tank.body]]")
		return other.err
	}
	d.graft("tank", other)
	d.unmeasured = append(d.unmeasured, other.unmeasured...)
	for file, from := range other.sources {
		d.sources[file] = from
	}
	return nil
}

// read parses a file: a path, relative to dir, or a name in the library.
func read(name, dir string) (*document, string, error) {
	path := name
	if dir != "" && !filepath.IsAbs(path) {
		path = filepath.Join(dir, path)
	}
	text, err := os.ReadFile(path)
	if err == nil {
		d, err := parse(path, string(text))
		if err == nil {
			d.sources = map[string]source{path: {dir: filepath.Dir(path)}}
		}
		return d, filepath.Dir(path), err
	}
	if built, err := library.ReadFile("library/" + name + ".toml"); err == nil {
		d, err := parse(name, string(built))
		if err == nil {
			d.sources = map[string]source{name: {library: true}}
		}
		return d, "", err
	}
	if errors.Is(err, fs.ErrNotExist) {
		rigs, tanks := Names()
		return nil, "", &Error{File: path, Reason: "no such file, expected a path or a built-in name: " + strings.Join(slices.Concat(rigs, tanks), ", ")}
	}
	return nil, "", &Error{File: path, Reason: "cannot be read: " + cause(err).Error()}
}

// A source is where a file of the tree comes from: a directory, or the built-in
// library.
type source struct {
	dir     string
	library bool
}

// greatestDrawing is the greatest size of a file that a body names, in bytes.
const greatestDrawing = 4 << 30

// beside reads a file that a key names, by a path relative to the file in which
// the key stands.
func (d *document) beside(key, name string) ([]byte, error) {
	file, _ := d.where(key)
	from, known := d.sources[file]
	if !known {
		from = d.sources[d.file] // an override
	}
	if from.library {
		if data, err := library.ReadFile("library/" + name); err == nil {
			return data, nil
		}
	}
	path := name
	if !filepath.IsAbs(path) {
		path = filepath.Join(from.dir, path)
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("%s: no such file, expected a path beside the file that names it", path)
	case err != nil:
		return nil, fmt.Errorf("%s cannot be read: %v", path, cause(err))
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s is not a file", path)
	case info.Size() > greatestDrawing:
		return nil, fmt.Errorf("%s holds %d bytes, expected at most %d", path, info.Size(), int64(greatestDrawing))
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %v", path, cause(err))
	}
	return data, nil
}

// cause strips an error of the path that the message names already.
func cause(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}
