package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"floatarc/plots/sheet"
	"floatarc/plots/sheet/sheettest"
	"floatarc/tanks"
)

// sheetOf is the worksheet of a rig.
func sheetOf(t *testing.T, rig, units string) *sheet.Document {
	t.Helper()
	var f sheetFlags
	f.plan.method, f.plan.neverOver = atMarks, quarter
	d, _, err := (&options{units: units}).sheet([]string{rig}, f)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestSheetsAreTwoPages: the sheet of every built-in rig is two pages of either paper.
func TestSheetsAreTwoPages(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	t.Parallel()
	rigs, _ := tanks.Names()
	for _, rig := range rigs {
		for _, units := range []string{"metric", "us"} {
			if n, err := sheetOf(t, rig, units).PageCount(); err != nil || n != 2 {
				t.Errorf("%s in %s: %d pages, %v", rig, units, n, err)
			}
		}
	}
}

// TestNumbersOnSheetsHaveATrueMinus: the ohms fall as cans are poured in.
func TestNumbersOnSheetsHaveATrueMinus(t *testing.T) {
	var all string
	for _, page := range sheetOf(t, tanks.Demo, "metric").Pages {
		found, _ := tables(page)
		for _, table := range found {
			for _, r := range table.Rows {
				for i, cell := range r.Cells {
					if table.Columns[i].Align == sheet.Right {
						all += cell + "\n"
					}
				}
			}
		}
	}
	if strings.Contains(all, "-") || strings.Count(all, "−") < 4 {
		t.Errorf("numbers with a hyphen, or without a minus:\n%s", all)
	}
}

// TestSheetsInABrowser opens the sheets of a metric and a US rig as a person would, on a
// screen, on a phone and printed: nothing leaves its page, two sheets come out, and nothing
// complains.
func TestSheetsInABrowser(t *testing.T) {
	b := sheettest.Open(t)
	for rig, units := range map[string]string{"demo": "metric", "sprayer": "us", "testdata/rigs/marks.toml": "imperial"} {
		d := sheetOf(t, rig, units)
		var buf bytes.Buffer
		if err := d.HTML(&buf); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "sheet.html")
		if err := os.WriteFile(path, buf.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		b.Load(path)
		for _, look := range []struct {
			media string
			width int64
		}{{"screen", 360}, {"screen", 1280}, {"print", 703}} {
			b.Look(look.media, look.width)
			if over := b.TooWide(); over > 0 {
				t.Errorf("%s on %s %d: %g pixels too wide", rig, look.media, look.width, over)
			}
			if out := b.Beyond(); len(out) > 0 {
				t.Errorf("%s on %s %d: beyond its box: %q", rig, look.media, look.width, out)
			}
		}
		want, err := d.PageCount()
		if err != nil {
			t.Fatal(err)
		}
		if n, _, _ := sheettest.Sheets(b.Print()); n != want {
			t.Errorf("%s: the browser prints %d sheets, expected %d", rig, n, want)
		}
		if said := b.Complaints(); len(said) > 0 {
			t.Errorf("%s: the browser says %q", rig, said)
		}
	}
}

// TestSheetSaysWhatTheCommandsSay reads a PDF back, and finds the figures of points and
// bench in it.
func TestSheetSaysWhatTheCommandsSay(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("no pdftotext here")
	}
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	var buf bytes.Buffer
	if err := sheetOf(t, tanks.Demo, "metric").PDF(&buf); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, buf.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(string(out)), " ")
	p := picturesOf(t, tanks.Demo, "metric")
	plan, err := p.job.plan(p.flags.plan)
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range plan.points {
		if want := q.Label + " " + one(q.InputOhms); !strings.Contains(text, want) {
			t.Errorf("no %q on the sheet", want)
		}
	}
	for _, r := range p.job.benchAnswer(p.rel, plan, terminals).Settings {
		if r.Midpoint && !strings.Contains(text, "check "+r.Label+" "+one(float64(r.Set))) {
			t.Errorf("no check %s on the sheet", r.Label)
		}
	}
	for _, c := range cautions {
		if !strings.Contains(text, strings.Join(strings.Fields(c), " ")[:18]) {
			t.Errorf("no %.30q on the sheet", c)
		}
	}
}
