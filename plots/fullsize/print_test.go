package fullsize

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// TestPrintedLine rasters a PDF by a general-purpose program, where there is one, and
// measures the check line and the height of the paper.
func TestPrintedLine(t *testing.T) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("no pdftoppm here")
	}
	stick, err := boxStick(600, 300, 700, quantity.Metric, ink.A4).Pages()
	if err != nil {
		t.Fatal(err)
	}
	arm, err := ArmCard(sampleArm(110, -48, 8, quantity.Metric, ink.A4))
	if err != nil {
		t.Fatal(err)
	}
	across, err := ArmCard(sampleArm(230, -46, 10, quantity.Metric, ink.A4))
	if err != nil {
		t.Fatal(err)
	}
	dial, err := DialOverlay(sampleFace(52, 90, quantity.Metric, ink.A4))
	if err != nil {
		t.Fatal(err)
	}
	for name, pages := range map[string]Pages{"stick": stick, "arm": {arm}, "across": {across}, "dial": {dial}} {
		width, height, pixels := rastered(t, pages)
		level, upright := longestRuns(width, height, pixels)
		if math.Abs(level-checkMM) > 0.2 {
			t.Errorf("%s: the check line is %.3f mm on paper, want %g ± 0.2", name, level, checkMM)
		}
		if name == "stick" && math.Abs(upright-checkMM) > 0.2 {
			t.Errorf("%s: the upright check line is %.3f mm on paper, want %g ± 0.2", name, upright, checkMM)
		}
		wantWide, wantTall := pages[0].Size()
		if w, h := float64(width)/perMM, float64(height)/perMM; math.Abs(w-inMM(wantWide)) > 0.1 || math.Abs(h-inMM(wantTall)) > 0.1 {
			t.Errorf("%s: a page of %.2f by %.2f mm", name, w, h)
		}
		t.Logf("%s: check line %.3f mm", name, level)
	}
}

// perMM is the fineness of the raster.
const perMM = 600 / 25.4

// rastered returns the grey pixels of the first page.
func rastered(t *testing.T, pages Pages) (width, height int, pixels []byte) {
	t.Helper()
	var pdf bytes.Buffer
	if err := pages.Write(&pdf); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(path, pdf.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftoppm", "-r", "600", "-gray", "-singlefile", path).Output()
	if err != nil {
		t.Fatal(err)
	}
	r := bufio.NewReader(bytes.NewReader(out))
	var most int
	if _, err := fmt.Fscanf(r, "P5\n%d %d\n%d\n", &width, &height, &most); err != nil {
		t.Fatal(err)
	}
	pixels, err = io.ReadAll(r)
	if err != nil || len(pixels) != width*height {
		t.Fatalf("%d pixels, %v", len(pixels), err)
	}
	return width, height, pixels
}

// longestRuns returns the longest dark run of the lowest 30 mm of a page, and that of
// the 20 mm at its right edge, mm.
func longestRuns(width, height int, pixels []byte) (level, upright float64) {
	longest := func(count int, dark func(i int) bool) float64 {
		most, run := 0, 0
		for i := range count {
			if run++; !dark(i) {
				run = 0
			}
			most = max(most, run)
		}
		return float64(most) / perMM
	}
	for y := height - int(math.Round(30*perMM)); y < height; y++ {
		level = math.Max(level, longest(width, func(x int) bool { return pixels[y*width+x] < 128 }))
	}
	for x := width - int(math.Round(20*perMM)); x < width; x++ {
		upright = math.Max(upright, longest(height, func(y int) bool { return pixels[y*width+x] < 128 }))
	}
	return level, upright
}
