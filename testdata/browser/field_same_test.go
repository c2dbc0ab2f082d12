package browser

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
)

// commandLine is the lotgauge command, built from this checkout.
func commandLine(t *testing.T) string {
	t.Helper()
	out := filepath.Join(t.TempDir(), "lotgauge")
	build := exec.Command("go", "build", "-o", out, "./cmd/lotgauge")
	build.Dir = "../.."
	if text, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	return out
}

// appraiseJSON is what the command line says of a listing file, from the
// demonstration folder.
func appraiseJSON(t *testing.T, command, file string) []byte {
	t.Helper()
	run := exec.Command(command, "appraise", "--json", file)
	run.Env = append(os.Environ(), "HOME="+t.TempDir(), "XDG_DATA_HOME=", "LOTGAUGE_DATA=")
	var errs bytes.Buffer
	run.Stderr = &errs
	out, err := run.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, errs.String())
	}
	return out
}

// downloads makes the handset save what it downloads into a folder.
func (x *handset) downloads() string {
	x.t.Helper()
	dir := x.t.TempDir()
	order(x.t, x.tab, cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{
		Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: dir,
		BrowserContextID: chromedp.FromContext(x).BrowserContextID,
	})
	return dir
}

// download taps what downloads a file and returns its path.
func (x *handset) download(dir, key string) string {
	x.t.Helper()
	before, _ := filepath.Glob(filepath.Join(dir, "*"))
	x.tap(key)
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		after, _ := filepath.Glob(filepath.Join(dir, "*"))
		if len(after) > len(before) && !strings.HasSuffix(after[len(after)-1], ".crdownload") {
			for _, file := range after {
				if info, err := os.Stat(file); err == nil && info.Size() > 0 && !contains(before, file) {
					return file
				}
			}
		}
	}
	x.t.Fatalf("%s downloads nothing", key)
	return ""
}

// firstDifference is the first line in which two texts differ.
func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return fmt.Sprintf("line %d is %q, not %q", i+1, g[i], w[i])
		}
	}
	return fmt.Sprintf("%d lines, not %d", len(g), len(w))
}

// showsStop holds the stop price in the head against an appraisal.
func (x *handset) showsStop(appraisal []byte) {
	x.t.Helper()
	var a struct {
		Purchase struct {
			Currency string
			Stop     *string `json:"break_even_bid"`
		}
	}
	if err := json.Unmarshal(appraisal, &a); err != nil {
		x.t.Fatal(err)
	}
	x.settled()
	want := "none"
	if stop := a.Purchase.Stop; stop != nil {
		want = strings.TrimSuffix(*stop, ".00") + "\u00a0" + a.Purchase.Currency
	}
	if got := ask[string](x.t, x.tab, `return document.querySelector(".price.main .amount").textContent`); got != want {
		x.t.Errorf("the page shows %q, not %q", got, want)
	}
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// TestFieldSameFigures taps finds together and hands them over: the command
// line reads the listing file as it is and says, byte for byte, what the page
// says.
func TestFieldSameFigures(t *testing.T) {
	command := commandLine(t)
	for name, taps := range map[string]func(x *handset){
		"untouched": func(x *handset) { x.tap("family " + largest) },
		"looked at": func(x *handset) {
			x.tap("family " + largest)
			x.tap("All points")
			x.tap("point pantograph-front")
			x.tap("pantograph-front missing")
			x.tap("point body")
			x.tap("body sound")
			x.tap("point wheels")
			x.enter("reading-wheels", "13,7")
			x.tap("enter wheels")
			x.wait(`document.querySelector("[data-key='point wheels'] .found").textContent === "13.7 mm"`)
			x.picture("measured")
			x.tap("symptom no-movement")
			x.tap("no-movement Yes")
			x.tap("Which one")
			x.tap("livery red")
			x.tap("Deal")
			x.enter("ask", "35")
		},
		"by hearsay": func(x *handset) {
			x.tap("family quillmore-t8")
			x.tap("The seller says")
			x.tap("All points")
			x.tap("point box")
			x.tap("hidden box")
			x.tap("Deal")
			x.tap("Auction")
			x.tap("sheet abroad-import")
			x.enter("ask", "42,50")
			x.enter("hammer-low", "30")
			x.enter("hammer-high", "90")
			x.enter("title", `a "quoted" <b>title</b> \ with é and 火`)
		},
	} {
		t.Run(name, func(t *testing.T) {
			x := openField(t, upright)
			dir := x.downloads()
			x.tap("New find")
			taps(x)
			x.tap("Hand over")
			listing, figures := x.download(dir, "Download"), x.download(dir, "Figures as JSON")
			got, err := os.ReadFile(figures)
			if err != nil {
				t.Fatal(err)
			}
			want := appraiseJSON(t, command, listing)
			if !bytes.Equal(got, want) {
				t.Errorf("the page differs from the command line: %s", firstDifference(string(got), string(want)))
			}
			x.showsStop(want)
			x.quiet(t)
		})
	}
}
