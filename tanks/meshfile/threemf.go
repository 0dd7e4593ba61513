package meshfile

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry/mesh"
)

// units of a 3MF model in mm (3MF Core Specification, section 3.4, from
// memory).
var units = map[string]float64{
	"micron": 1e-3, "millimeter": 1, "centimeter": 10, "inch": 25.4, "foot": 304.8, "meter": 1000,
}

// Limits that keep a small file from claiming much: how many times its own size
// the model in it may be, plus a little, how deep objects may be made of others,
// and how many copies and triangles those may make.
const (
	inflation = 200
	little    = 1 << 20
	deepest   = 16
	copies    = 1 << 16
	copied    = 1 << 24
)

// read3MF reads the objects that the build of a 3MF places.
func read3MF(data []byte) (*Drawing, error) {
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, fmt.Errorf("not a 3MF: %v, expected a zip archive", err)
	}
	part, err := modelPart(archive)
	if err != nil {
		return nil, err
	}
	in, err := part.Open()
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %v", part.Name, err)
	}
	defer in.Close()
	limit := int64(len(data))*inflation + little
	p := &model{unit: 1, objects: map[string]*object{}, in: xml.NewDecoder(io.LimitReader(in, limit))}
	if err := p.read(); err != nil {
		return nil, fmt.Errorf("%s: %w", part.Name, err)
	}
	f := mesh.NewFacets(p.triangles)
	if len(p.build) == 0 {
		return nil, fmt.Errorf("%s: no item in the build, expected an object that is placed", part.Name)
	}
	for _, item := range p.build {
		if err := p.place(f, item, identity, 0); err != nil {
			return nil, fmt.Errorf("%s: %w", part.Name, err)
		}
	}
	return &Drawing{Facets: f, Unit: p.unit}, nil
}

// modelPart finds the model that the archive's relationships name, or else the
// only one there is.
func modelPart(archive *zip.Reader) (*zip.File, error) {
	named := ""
	if rels, err := archive.Open("_rels/.rels"); err == nil {
		var doc struct {
			Relationship []struct {
				Target, Type string `xml:",attr"`
			}
		}
		if xml.NewDecoder(io.LimitReader(rels, little)).Decode(&doc) == nil {
			for _, r := range doc.Relationship {
				if strings.HasSuffix(r.Type, "/3dmodel") {
					named = strings.TrimPrefix(path.Clean(r.Target), "/")
				}
			}
		}
		rels.Close()
	}
	for _, file := range archive.File {
		if file.Name == named || named == "" && strings.HasSuffix(strings.ToLower(file.Name), ".model") {
			return file, nil
		}
	}
	return nil, errors.New("no 3D model in the archive, expected a part ending in .model")
}

// An object is a mesh, or made of other objects.
type object struct {
	points     []r3.Vec
	faces      [][3]int32
	components []item
	aside      bool // supports the model in printing, and is not part of it
}

// An item is an object, and where it goes.
type item struct {
	object string
	at     transform
}

// A transform is a 4 by 3 matrix by rows: points are rows, multiplied from the
// left.
type transform [12]float64

var identity = transform{1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0}

func (t transform) apply(p r3.Vec) r3.Vec {
	return r3.Vec{
		X: p.X*t[0] + p.Y*t[3] + p.Z*t[6] + t[9],
		Y: p.X*t[1] + p.Y*t[4] + p.Z*t[7] + t[10],
		Z: p.X*t[2] + p.Y*t[5] + p.Z*t[8] + t[11],
	}
}

// then returns first t, then u.
func (t transform) then(u transform) transform {
	x := u.apply(r3.Vec{X: t[0], Y: t[1], Z: t[2]})
	y := u.apply(r3.Vec{X: t[3], Y: t[4], Z: t[5]})
	z := u.apply(r3.Vec{X: t[6], Y: t[7], Z: t[8]})
	o := u.apply(r3.Vec{X: t[9], Y: t[10], Z: t[11]})
	shift := r3.Vec{X: u[9], Y: u[10], Z: u[11]}
	x, y, z = r3.Sub(x, shift), r3.Sub(y, shift), r3.Sub(z, shift)
	return transform{x.X, x.Y, x.Z, y.X, y.Y, y.Z, z.X, z.Y, z.Z, o.X, o.Y, o.Z}
}

// mirrors tells whether the transform turns left into right.
func (t transform) mirrors() bool {
	x, y, z := r3.Vec{X: t[0], Y: t[1], Z: t[2]}, r3.Vec{X: t[3], Y: t[4], Z: t[5]}, r3.Vec{X: t[6], Y: t[7], Z: t[8]}
	return r3.Dot(x, r3.Cross(y, z)) < 0
}

// A model is what the XML of a 3MF says.
type model struct {
	in        *xml.Decoder
	unit      float64
	objects   map[string]*object
	build     []item
	triangles int
	placed    int // objects, counting each copy
	vertices  int // the same
	current   *object
}

// read walks over the elements of the model.
func (m *model) read() error {
	found := false
	for {
		token, err := m.in.RawToken()
		if err == io.EOF {
			break
		}
		if err != nil {
			return m.at(fmt.Errorf("not XML: %v", err))
		}
		switch e := token.(type) {
		case xml.StartElement:
			found = found || e.Name.Local == "model"
			if err := m.element(e); err != nil {
				return m.at(err)
			}
		case xml.EndElement:
			if e.Name.Local == "object" {
				m.current = nil
			}
		}
	}
	if !found {
		return errors.New("no model element, expected a whole 3MF model")
	}
	return nil
}

func (m *model) at(err error) error {
	line, _ := m.in.InputPos()
	return fmt.Errorf("line %d: %w", line, err)
}

func (m *model) element(e xml.StartElement) error {
	switch e.Name.Local {
	case "model":
		if name := attribute(e, "unit"); name != "" {
			unit, known := units[name]
			if !known {
				return fmt.Errorf("unit %q, expected micron, millimeter, centimeter, inch, foot or meter", name)
			}
			m.unit = unit
		}
	case "object":
		m.current = &object{aside: strings.Contains(attribute(e, "type"), "support")}
		m.objects[attribute(e, "id")] = m.current
	case "vertex", "triangle", "component":
		if m.current != nil { // extensions have vertices of their own
			return m.inObject(e)
		}
	case "item":
		it, err := itemOf(e)
		if err == nil {
			m.build = append(m.build, it)
		}
		return err
	}
	return nil
}

// inObject reads what an object is made of.
func (m *model) inObject(e xml.StartElement) error {
	o := m.current
	switch e.Name.Local {
	case "vertex":
		var c [3]float64
		for i, name := range []string{"x", "y", "z"} {
			var err error
			if c[i], err = strconv.ParseFloat(attribute(e, name), 64); err != nil {
				return fmt.Errorf("vertex %s = %q, expected a number", name, attribute(e, name))
			}
		}
		p := r3.Vec{X: c[0], Y: c[1], Z: c[2]}
		if !finite(p) {
			return fmt.Errorf("vertex %v is not finite, expected three numbers", c)
		}
		o.points = append(o.points, p)
	case "triangle":
		var f [3]int32
		for i, name := range []string{"v1", "v2", "v3"} {
			k, err := strconv.Atoi(attribute(e, name))
			if err != nil || k < 0 || k >= len(o.points) {
				return fmt.Errorf("triangle %s = %q, expected the number of one of the %d vertices", name, attribute(e, name), len(o.points))
			}
			f[i] = int32(k)
		}
		m.triangles++
		o.faces = append(o.faces, f)
	case "component":
		it, err := itemOf(e)
		if err != nil {
			return err
		}
		o.components = append(o.components, it)
	}
	return nil
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// itemOf reads the object and the transform of an item or a component.
func itemOf(e xml.StartElement) (item, error) {
	if file := attribute(e, "path"); file != "" {
		return item{}, fmt.Errorf("an object in another part, %q, expected all objects in one", file)
	}
	it := item{object: attribute(e, "objectid"), at: identity}
	words := strings.Fields(attribute(e, "transform"))
	if len(words) == 0 {
		return it, nil
	}
	if len(words) != len(it.at) {
		return item{}, fmt.Errorf("a transform of %d numbers, expected 12", len(words))
	}
	for i, w := range words {
		x, err := strconv.ParseFloat(w, 64)
		if err != nil || x-x != 0 {
			return item{}, fmt.Errorf("transform %q, expected finite numbers", w)
		}
		it.at[i] = x
	}
	return it, nil
}

// place adds an object, and what it is made of, to the triangles.
func (m *model) place(f *mesh.Facets, it item, outer transform, depth int) error {
	o := m.objects[it.object]
	if o == nil {
		return fmt.Errorf("object %q is placed but not there, expected one of the model's objects", it.object)
	}
	if depth > deepest {
		return fmt.Errorf("object %q is made of objects more than %d deep, expected fewer", it.object, deepest)
	}
	if o.aside {
		return nil
	}
	if m.placed++; m.placed > copies {
		return fmt.Errorf("the build places more than %d objects, expected fewer", copies)
	}
	if m.vertices += len(o.points); len(o.faces) > 0 && m.vertices > max(copied, 4*m.triangles) {
		return fmt.Errorf("the build makes more than %d vertices of %d triangles, expected fewer copies", copied, m.triangles)
	}
	at := it.at.then(outer)
	if len(f.Faces)+len(o.faces) > max(copied, 4*m.triangles) {
		return fmt.Errorf("the build makes more than %d triangles of %d, expected fewer copies", len(f.Faces), m.triangles)
	}
	var numbers []int32
	if len(o.faces) > 0 {
		numbers = make([]int32, len(o.points))
	}
	for i, p := range o.points[:len(numbers)] {
		q := at.apply(p)
		if !finite(q) {
			return fmt.Errorf("object %q has a vertex that is not finite once it is placed", it.object)
		}
		numbers[i] = f.Vertex(q)
	}
	mirrored := at.mirrors()
	for _, t := range o.faces {
		a, b, c := numbers[t[0]], numbers[t[1]], numbers[t[2]]
		if mirrored {
			b, c = c, b
		}
		f.Face(a, b, c)
	}
	for _, part := range o.components {
		if err := m.place(f, part, at, depth+1); err != nil {
			return err
		}
	}
	return nil
}
