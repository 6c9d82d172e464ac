package reading

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/calc/stock"
)

func testLook() Lookups {
	return Lookups{Shop: &stock.Workshop{Blocks: []stock.Block{{Name: "demo-oval"}, {Name: "tube-8x0.8"}, {Name: "Block-B2"}}}}
}

// typedOf shows typed arguments as "name=text".
func typedOf(p Parsed) string {
	var list []string
	for _, o := range p.Spec.Options {
		if v, ok := p.Args[o.Name]; ok && v.Source == catalogue.Typed {
			list = append(list, o.Name+"="+v.Text)
		}
	}
	return strings.Join(list, " ")
}

func TestParse(t *testing.T) {
	const usual = "outline=oval size=8x6 depth=4 alloy=sterling thickness=22ga"
	tests := []struct{ line, want string }{
		{"collet oval 8x6 depth 4 sterling 22ga", usual},
		{"COLLET Oval 8X6 Depth 4 STERLING 22GA", usual},
		{"collet oval 8×6 depth 4 sterling 22 ga", usual},
		{"collet oval 8*6 depth 4 sterling 22 gauge", usual},
		{"collet oval 8 by 6 depth 4mm sterling gauge 22", usual},
		{"collet oval 8 x 6 mm depth: 4 sterling gauge=22", usual},
		{"collet oval 8mm x 6mm depth=4mm sterling 22g", usual},
		{"collet oval8x6 depth4 sterling22ga", usual},
		{"collet 22ga sterling depth 4 8x6 oval", usual},
		{"collet: oval, 8x6, depth 4, sterling, 22ga.", usual},
		{"collet oval “8x6” depth \"4\" sterling 22ga", usual},
		{"collet “oval” 8 × 6 mm, ‘depth’ 4 mm, sterling 22 ga", usual},
		{"collet\u00a0oval\u00a08x6\u00a0depth\u00a04\u00a0sterling\u202f22ga", usual},
		{"collet oval 8x6 4 mm deep in sterling, 22 gauge sheet please", usual},
		{"collet for an oval cut 8x6 with depth of 4 in sterling silver 22-ga", usual},
		{"**collet** `oval` 8x6 depth 4 sterling 22ga", usual},
		{"collet\n- oval\n- 8x6\n- depth 4\n- sterling\n- 22ga", usual},
		{"collet shape oval size 8x6 --depth 4 metal ag925 thickness #", ""},
		{"collet ８×６ oval depth 4 sterling 22ga", usual},
		{"collet 8️⃣x6️⃣ oval depth 4 sterling 22ga", usual},
		{"collet oval 8x6 in sterling depth 4 22ga", usual},
		{"collet oval 8,5x6", "outline=oval size=8.5x6"},
		{"collet oval 8,5 x 6,25 mm, depth 4,1", "outline=oval size=8.5x6.25 depth=4.1"},
		{"collet oval 5/16 x 1/4 in", "outline=oval size=7.9375x6.35"},
		{`collet oval 5/16" x 1/4" depth 5/32"`, "outline=oval size=7.9375x6.35 depth=3.96875"},
		{"collet oval 5/16″ × ¼″ depth 4", "outline=oval size=7.9375x6.35 depth=4"},
		{"collet oval 1 1/4 x 1-1/8 inch", "outline=oval size=31.75x28.575"},
		{"collet oval 1½ x 1¼ in", "outline=oval size=38.1x31.75"},
		{"collet oval 5/16 x 1/4 in sterling", "outline=oval size=7.9375x6.35 alloy=sterling"},
		{"collet oval 8x6 .025in", "outline=oval size=8x6 thickness=0.635mm"},
		{"collet oval 8x6 0.64mm", "outline=oval size=8x6 thickness=0.64mm"},
		{"collet round 6 0.64mm", "outline=round size=6 thickness=0.64mm"},
		{"collet 6mm round 0.64 mm", "outline=round size=6 thickness=0.64mm"},
		{"collet oval 0.64mm 8x6", "outline=oval size=8x6 thickness=0.64mm"},
		{"collet oval 8x6 thickness 0.64", "outline=oval size=8x6 thickness=0.64mm"},
		{"collet oval 8x6 25 thou", "outline=oval size=8x6 thickness=0.635mm"},
		{"collet tapered baguette 6x4x3", "outline=tapered-baguette size=6x4x3"},
		{"collet half moon 8x4", "outline=half-moon size=8x4"},
		{"collet halfmoon 8x4 Fine Silver", "outline=half-moon size=8x4 alloy=fine-silver"},
		{"collet oval 8x6 18 k yellow", "outline=oval size=8x6 alloy=18k-yellow"},
		{"collet oval 8x6 18k", "outline=oval size=8x6 alloy=18k-yellow"},
		{"collet oval 8x6 925", "outline=oval size=8x6 alloy=sterling"},
		{"collet oval 8x6 lean8.5", "outline=oval size=8x6 lean=8.5"},
		{"collet oval 8x6 lean 8.5°", "outline=oval size=8x6 lean=8.5"},
		{"collet oval 8x6 lean 8.5 degrees corner scored base round", "outline=oval size=8x6 lean=8.5 corner=scored base=round"},
		{"collet oval 8x6 round base", "outline=oval size=8x6 base=round"},
		{"collet oval 8x6 scored corner", "outline=oval size=8x6 corner=scored"},
		{"collet oval 8x6 no pre-cone", "outline=oval size=8x6"},
		{"collet oval 8x6 thickness 22ga sterling sheet", "outline=oval size=8x6 alloy=sterling thickness=22ga"},
		{"collet oval 8x6 block demo oval", "outline=oval size=8x6 block=demo-oval"},
		{"collet oval 8x6 block b2", "outline=oval size=8x6 block=Block-B2"},
		{"collet oval 8x6 press 20t", "outline=oval size=8x6 press=20t"},
		{"collet oval 8x6 press 20 kN", "outline=oval size=8x6 press=20kN"},
		{"collet oval 8x6 press 20 tons", "outline=oval size=8x6 press=20ton"},
		{"collet oval 8x6 pre-cone", "outline=oval size=8x6 pre-cone=yes"},
		{"collet oval 8x6 precone yes", "outline=oval size=8x6 pre-cone=yes"},
		{"collet oval 8x6 pre-cone: no", "outline=oval size=8x6"},
		{"collet oval 8x6 factor .45", "outline=oval size=8x6 factor=0.45"},
		{"collet measured points 0,0 8,0 8,6 0,6", "outline=measured points=0,0 8,0 8,6 0,6"},
		{"collet measured 0,0 8,0 8,6 0,6 depth 4", "outline=measured points=0,0 8,0 8,6 0,6 depth=4"},
		{"collet measured (0, 0) (8.5, 0); (8.5, 6) (0, -6.25) mm", "outline=measured points=0,0 8.5,0 8.5,6 0,-6.25"},
		{"weigh sheet 50 x 20 22ga", "form=sheet size=50x20 thickness=22ga"},
		{"weigh wire mass 22g", "form=wire mass=22g"},
		{"weigh wire mass 2 ct", "form=wire mass=2ct"},
		{"weigh wire mass 3 dwt waste 5%", "form=wire mass=3dwt waste=5"},
		{"weigh wire button 12%", "form=wire button=12"},
		{"weigh wire button 12", "form=wire button=12"},
		{"weigh wire button 8 g", "form=wire button=8g"},
		{"weigh wire button 5 dwt", "form=wire button=5dwt"},
		{"weigh wire mass 0,2 troy oz", "form=wire mass=0.2ozt"},
		{"band us 7 1/2", "size=7 1/2 system=us"},
		{"band 7½ US width 4", "size=7 1/2 system=us width=4"},
		{"band N 1/2 uk", "size=N 1/2 system=uk"},
		{"band n", "size=N"},
		{"band size us 7", "size=7 system=us"},
		{"band 7.25 us 18ga", "size=7.25 system=us thickness=18ga"},
		{"band 54 iso 18ga width 3", "size=54 system=iso width=3 thickness=18ga"},
		{"band uk Z+2", "size=Z+2 system=uk"},
		{"kit 12 makers collet oval 8x6 depth 4 Sterling", "makers=12 piece=collet oval 8x6 depth 4 Sterling"},
		{"kit for 12 students: collet oval 8x6", "makers=12 piece=collet oval 8x6"},
		{"kit makers 12 of collet oval 8x6", "makers=12 piece=collet oval 8x6"},
		{"kit 12 students kerf 0.5 collet oval 8x6\ncollet pear 9x6", "makers=12 kerf=0.5 piece=collet oval 8x6; collet pear 9x6"},
		{"daybook find Oval 8x6 maker anna", "find=oval 8x6 maker=anna"},
		{"daybook amend 12 text Use 20 ga here, the “rim” is 1 mm", "amend=12 text=Use 20 ga here, the “rim” is 1 mm"},
		{"gauge 22", "gauge=22ga"},
		{"gauge 0.64", "gauge=0.64mm"},
		{"gauge 000", "gauge=000ga"},
		{"gauge .025 in", "gauge=0.635mm"},
		{"gauge 1 mm", "gauge=1mm"},
	}
	specs := testSpecs()
	for _, tt := range tests {
		p, err := Parse(specs, tt.line, testLook())
		if tt.want == "" {
			if err == nil {
				t.Errorf("%q: parsed as %q, should be refused", tt.line, typedOf(p))
			}
			continue
		}
		if err != nil {
			r, _ := answer.AsRefusal(err)
			t.Errorf("%q: refused: %v (try %q)", tt.line, err, r.Try)
			continue
		}
		if got := typedOf(p); got != tt.want {
			t.Errorf("%q\n got %s\nwant %s", tt.line, got, tt.want)
		}
		checkCanonical(t, specs, p)
	}
}

// checkCanonical types the canonical line again and wants the same.
func checkCanonical(t *testing.T, specs []catalogue.Spec, p Parsed) {
	t.Helper()
	again, err := Parse(specs, p.Line, testLook())
	if err != nil {
		t.Errorf("canonical %q: refused: %v", p.Line, err)
		return
	}
	if again.Line != p.Line || !reflect.DeepEqual(again.Args, p.Args) {
		t.Errorf("canonical %q\n gives %q\n args %v\n  not %v", p.Line, again.Line, again.Args, p.Args)
	}
}

func TestRefusals(t *testing.T) {
	tests := []struct{ line, problem, try string }{
		{"collet ovla 8x6", `there is no outline "ovla"; did you mean oval?`, "collet oval 8x6"},
		{"collet oval 8x6 detph 4", `there is no option "detph"; did you mean depth?`, "collet oval 8x6 depth 4"},
		{"collet oval 8x6 sterlin 22ga", `there is no alloy "sterlin"; did you mean sterling?`, "collet oval 8x6 sterling 22ga"},
		{"collet half mon 8x4", `there is no outline "half mon"; did you mean half-moon?`, "collet half-moon 8x4"},
		{"collet ovla 8x6 sterlin detph 4", `there is no outline "ovla"; did you mean oval?`, "collet oval 8x6 depth 4 sterling"},
		{"collet oval 8x6 rose gold", `there is no alloy "rose gold"; did you mean 18k-rose?`, "collet oval 8x6 18k-rose"},
		{"colet oval 8x6", `there is no request "colet"; did you mean collet?`, "collet oval 8x6"},
		{"oval 8x6 depth 4", "a question starts with its request word; did you mean: collet oval 8x6 depth 4?", "collet oval 8x6 depth 4"},
		{"8x6 oval", "a question starts with its request word; did you mean: collet oval 8x6?", "collet oval 8x6"},
		{"can nobody make a collet for oval 8x6", `a question starts with its request word, collet; "can" comes before it`, "collet oval 8x6"},
		{"frobnicate", `there is no request "frobnicate"; the requests are collet, weigh, band, kit, daybook or gauge`, "collet oval 8x6 depth 4 sterling 22ga"},
		{"", "nothing was asked; a question starts with a request word: collet, weigh, band, kit, daybook or gauge", "collet oval 8x6 depth 4 sterling 22ga"},
		{"  \n ", "nothing was asked; a question starts with a request word: collet, weigh, band, kit, daybook or gauge", "collet oval 8x6 depth 4 sterling 22ga"},
		{"collet 8x6", "which outline is the stone?", "collet oval 8x6"},
		{"collet oval", "what size is the stone?", "collet oval 8x6"},
		{"collet", "which outline is the stone?", "collet oval 8x6"},
		{"kit 12 makers", "which piece does each maker make?", "kit makers 12 collet oval 8x6 depth 4"},
		{"collet oval 8x6 xyzzy", `collet doesn't know "xyzzy"; it can still take depth, height, alloy, thickness, lean, included, corner or base`, "collet oval 8x6"},
		{"collet oval 8x6 💎", `collet doesn't know "💎"; it can still take depth, height, alloy, thickness, lean, included, corner or base`, "collet oval 8x6"},
		{"collet oval 8x6 depth 4 depth 5", "depth is given twice, 4 and 5; leave one out", "collet oval 8x6 depth 4"},
		{"collet oval pear 8x6", "outline is given twice, oval and pear; leave one out", "collet oval 8x6"},
		{"collet oval 8x6 7x5", "size is given twice, 8x6 and 7x5; leave one out", "collet oval 8x6"},
		{"collet oval 8x6 lean 8 included 17", "lean and included can't both be given; leave one out", "collet oval 8x6 lean 8"},
		{"collet oval 8x6 depth", "depth needs a length; it takes 0.3 to 80 mm", "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth sterling", "depth needs a length; it takes 0.3 to 80 mm", "collet oval 8x6 depth 4 sterling"},
		{"collet oval 8x6 depth abc", `depth "abc" is not a length; it takes 0.3 to 80 mm`, "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth 0", "depth 0 mm is out of range: it takes 0.3 to 80 mm", "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth -3", "depth -3 mm is out of range: it takes 0.3 to 80 mm", "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth 1e9", "depth 1e9 mm is out of range: it takes 0.3 to 80 mm", "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth 1e-9", "depth 1e-9 mm is out of range: it takes 0.3 to 80 mm", "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth 9 in", "depth 9 in (228.6 mm) is out of range: it takes 0.3 to 80 mm", "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth NaN", `depth "nan" is not a number; it takes 0.3 to 80 mm`, "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth -Inf", `depth "-inf" is not a number; it takes 0.3 to 80 mm`, "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth 1.2.3", `depth "1.2.3" is not a number; it takes 0.3 to 80 mm`, "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth 3/0", `depth "3/0" is not a number; it takes 0.3 to 80 mm`, "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth 💎", `depth "💎" is not a length; it takes 0.3 to 80 mm`, "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth=", "depth needs a length; it takes 0.3 to 80 mm", "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth 4 g", `depth is a length and "4 g" is not; it takes 0.3 to 80 mm`, "collet oval 8x6 depth 4"},
		{"collet oval 8x6 depth 4x5", `depth is one number and "4x5" is 2; it takes 0.3 to 80 mm`, "collet oval 8x6 depth 4"},
		{"collet oval 0x6", "size 0x6 mm is out of range: it takes 0.8 to 100 mm a side", "collet oval 8x6"},
		{"collet oval -3x6", "size -3x6 mm is out of range: it takes 0.8 to 100 mm a side", "collet oval 8x6"},
		{"collet oval 8x-6", "size 8x-6 mm is out of range: it takes 0.8 to 100 mm a side", "collet oval 8x6"},
		{"collet oval NaNx6", `size "nanx6" is not a number; it takes 0.8 to 100 mm a side`, "collet oval 8x6"},
		{"collet oval 1e9x6", "size 1e9x6 mm is out of range: it takes 0.8 to 100 mm a side", "collet oval 8x6"},
		{"collet oval 1e-9", "size 1e-9 mm is out of range: it takes 0.8 to 100 mm a side", "collet oval 8x6"},
		{"collet oval 1234567890123456789012345678901234567890x6", "size 1234567890123456789012345678901234567890… is out of range: it takes 0.8 to 100 mm a side", "collet oval 8x6"},
		{"collet oval 8 6", `what is "6"? if it is the other side of the size, write 8x6`, "collet oval 8x6"},
		{"collet oval 8-6 depth 4", `what is "-6"? if it is the other side of the size, write 8x6`, "collet oval 8x6 depth 4"},
		{"collet oval 8mm long 6mm wide", `what is "6mm"? if it is the other side of the size, write 8mmx6mm`, "collet oval 8x6"},
		{"collet oval 8x6 scored", `"scored" needs its option's name before it: corner scored`, "collet oval 8x6 corner scored"},
		{"collet oval 8x6 #22", `"#22" may be a gauge number; write 22ga`, "collet oval 8x6 22ga"},
		{"collet rd 6", `collet doesn't know "rd"; it can still take outline, size, points, depth, height, alloy, thickness or lean`, "collet oval 6"},
		{"22 gauge", "a question starts with its request word; did you mean: gauge 22ga?", "gauge 22ga"},
		{"collet oval 8mm 6mm", `what is "6mm"? if it is the other side of the size, write 8mmx6mm`, "collet oval 8x6"},
		{"collet oval 8x depth 4", `behind "8x" the other side of the size is missing`, "collet oval 8x6 depth 4"},
		{"collet oval 8x6 4", `what is "4"? give it its name: depth 4, height 4 or thickness 4mm`, "collet oval 8x6 depth 4"},
		{"collet oval 8x6 sterling 22", `what is "22"? give it its name: depth 22, height 22 or 22ga`, "collet oval 8x6 depth 22 sterling"},
		{"collet oval 8x6 50ga", `thickness "50ga" is not a gauge number; it takes 0.1 to 6 mm (3 to 38 ga)`, "collet oval 8x6 22ga"},
		{"collet oval 8x6 0ga", "thickness 0ga (8.251 mm) is out of range: it takes 0.1 to 6 mm (3 to 38 ga)", "collet oval 8x6 22ga"},
		{"collet oval 8x6 thickness 22", "thickness 22 is out of range: it takes 0.1 to 6 mm (3 to 38 ga)", "collet oval 8x6 22ga"},
		{"collet oval 3x2 in sterling", `"3x2 in" can be 3x2 mm or 76.2x50.8 mm (inches); write mm or inch`, "collet oval 3x2 sterling"},
		{"collet oval 8x6 press 20", `press "20" lacks its unit; write 20t for tonnes or 20kN, from 1 to 1000 kN`, "collet oval 8x6 press 20t"},
		{"collet oval 8x6 corner bend", `there is no corner "bend"; did you mean bent?`, "collet oval 8x6 corner bent"},
		{"collet oval 8x6 corner", "corner needs a word; it takes bent or scored", "collet oval 8x6 corner bent"},
		{"collet oval 8x6 block nowhere", `there is no block "nowhere"; it takes demo-oval, tube-8x0.8 or Block-B2`, "collet oval 8x6 block demo-oval"},
		{"collet measured points 0,0 1,1", `points has 2 pairs; it takes 3 to 64 pairs x,y in mm`, "collet measured points 0,0 8,0 8,6 0,6"},
		{"collet measured 8x6 points 0,0 8,0 8,6", "size and points can't both be given; leave one out", "collet measured 8x6"},
		{"weigh wire 22g", "22g can be a gauge or a mass; write 22ga or 22 gram", "weigh wire 22ga"},
		{"weigh wire mass 2 oz", "an ounce can be troy or avoirdupois; write 2 ozt or 2 oz av", "weigh wire mass 2ozt"},
		{"weigh wire mass 2 gr", "gr can be a grain or a gram; write 2 g or 2 grain", "weigh wire mass 2g"},
		{"kit 2.5 makers collet oval 8x6", `makers "2.5" is not a whole number; it takes whole numbers from 1 to 60`, "kit makers 12 collet oval 8x6"},
		{strings.Repeat("collet ", 300), "the question is 2100 characters long; up to 1500 are read", "collet oval 8x6 depth 4 sterling 22ga"},
	}
	specs := testSpecs()
	for _, tt := range tests {
		p, err := Parse(specs, tt.line, testLook())
		r, ok := answer.AsRefusal(err)
		if !ok {
			t.Errorf("%q: not refused: %v", tt.line, typedOf(p))
			continue
		}
		if r.Problem != tt.problem || r.Try != tt.try {
			t.Errorf("%q\n got %s\n     %s\nwant %s\n     %s", tt.line, r.Problem, r.Try, tt.problem, tt.try)
		}
		if again, err := Parse(specs, r.Try, testLook()); err != nil {
			t.Errorf("%q: the line to try, %q, is refused: %v", tt.line, r.Try, err)
		} else {
			checkCanonical(t, specs, again)
		}
	}
}

func TestMaxPointsFit(t *testing.T) {
	var b strings.Builder
	b.WriteString("collet measured points")
	for i := 0; i < 64; i++ {
		fmt.Fprintf(&b, " %.2f,%.2f", -50+float64(i)*1.37, -12.34-float64(i))
	}
	b.WriteString(" depth 4.25 sterling 22ga lean 8.5 corner scored block demo-oval press 20t")
	p, err := Parse(testSpecs(), b.String(), testLook())
	if err != nil || len(p.Args["points"].Points) != 64 {
		t.Fatalf("%d characters: %v", b.Len(), err)
	}
	checkCanonical(t, testSpecs(), p)
	if _, err := Parse(testSpecs(), strings.Replace(b.String(), "points", "points 1,1", 1), testLook()); err == nil {
		t.Error("65 pairs were taken")
	}
}
