package sheet

import (
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"floatarc/plots/ink"
)

var update = flag.Bool("update", false, "rewrite what the tests compare with")

func TestGoldenHTML(t *testing.T) {
	path := filepath.Join("testdata", "sample.html")
	got := html(t, sample(ink.A4))
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs: run with -update and read the diff", path)
	}
}

// elements returns the elements of a page in their order, as a reader of markup sees them.
func elements(t *testing.T, page string) []xml.StartElement {
	t.Helper()
	// What XML has no letters for is no matter of markup.
	page = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' || r == '\ufffe' || r == '\uffff' {
			return -1
		}
		return r
	}, strings.ToValidUTF8(page, ""))
	d := xml.NewDecoder(strings.NewReader(page))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	var out []xml.StartElement
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := token.(xml.StartElement); ok {
			out = append(out, e.Copy())
		}
	}
}

// hostile has what wants to break out in every text.
func hostile(text string) *Document {
	return &Document{
		Title: text, Subtitle: text, Footer: text,
		Pages: []Page{{
			Heading{text}, Paragraph{Text: text}, Paragraph{Text: text, Small: true, Warn: true},
			List{Items: []string{text, text}}, List{Items: []string{text}, Warn: true},
			Fields{Columns: 2, Fields: []Field{{text, text, text}, {text, "", text}, {text, "", ""}}},
			Table{
				Columns: []Column{{Head: text, Units: text}, {Head: text, Align: Right}, {Head: text, Kind: Blank}, {Head: text, Kind: Tick}},
				Rows:    []Row{{Cells: []string{text, text, text, text}}, {Cells: []string{text}, Strong: true}},
			},
			Columns{Share: 0.2, Left: []Block{Heading{text}, Fields{Columns: 4, Fields: []Field{{text, "", text}, {text, text, ""}}}},
				Right: []Block{Figure{Picture: drawing{text, text, 300}, Caption: text}}},
		}},
	}
}

// TestNothingBreaksOut puts markup into every text.
func TestNothingBreaksOut(t *testing.T) {
	for _, text := range []string{
		`<script>alert(1)</script>`, `" onload="alert(1)`, `' onload='alert(1)`, `</style><script>alert(1)</script>`,
		`</title><img src=x onerror=alert(1)>`, `"; } body { background: url(http://localhost/x) } @page { content: "`,
		`</svg></figure><iframe src=x>`, `]]><!-- <a href="javascript:alert(1)">`, `{{.Style}}`, `\"</style`, "javascript:alert(1)",
	} {
		allowed := map[string]int{}
		for _, n := range elements(t, html(t, hostile("plain"))) {
			allowed[n.Name.Local]++
		}
		for _, n := range elements(t, html(t, hostile(text))) {
			allowed[n.Name.Local]--
			for _, a := range n.Attr {
				if strings.HasPrefix(strings.ToLower(a.Name.Local), "on") || a.Name.Local == "src" || a.Name.Local == "href" {
					t.Errorf("%q: <%s %s=%q>", text, n.Name.Local, a.Name.Local, a.Value)
				}
			}
		}
		for name, n := range allowed {
			if n != 0 {
				t.Errorf("%q: %d <%s> too few", text, n, name)
			}
		}
	}
}

func TestPageStandsAlone(t *testing.T) {
	page := html(t, sample(ink.Letter))
	for _, want := range []string{
		`<html lang="en">`, `<meta charset="utf-8">`, `content="default-src 'none'; style-src 'unsafe-inline'; img-src data:"`,
		`<title>Worksheet: demo tank</title>`, `name="viewport"`, "size: Letter;", "margin: 12mm", `"Worksheet\3a  demo tank \2013  prove it`,
	} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q", want)
		}
	}
	if strings.Contains(page, "ZgotmplZ") {
		t.Error("the template refused something")
	}
	seen := map[string]bool{}
	for _, n := range elements(t, page) {
		for _, a := range n.Attr {
			if a.Name.Local == "id" && seen[a.Value] {
				t.Errorf("two elements with the id %q", a.Value)
			}
			if a.Name.Local == "id" {
				seen[a.Value] = true
			}
		}
		if n.Name.Local == "script" || n.Name.Local == "link" || n.Name.Local == "img" || n.Name.Local == "iframe" {
			t.Errorf("there is a <%s>", n.Name.Local)
		}
	}
}

func FuzzHTML(f *testing.F) {
	f.Add("a title", "12.5")
	f.Add("</style><script>", `"><script>`)
	f.Add("\xff\x00燃料😀", "a\u0301\u200b\n\n")
	f.Fuzz(func(t *testing.T, title, cell string) {
		d := hostile(cell)
		d.Title = title
		for _, n := range elements(t, html(t, d)) {
			if n.Name.Local == "script" {
				t.Fatalf("a script in the page of %q, %q", title, cell)
			}
		}
		if len(title)+len(cell) < 2000 {
			pdf(t, d)
		}
	})
}
