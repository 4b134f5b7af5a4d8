package feelings

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

type rating struct {
	family, word     string
	valence, arousal float64
}

func ratings(t *testing.T) (out []rating) {
	t.Helper()
	f, err := os.Open("testdata/ratings.txt")
	require.NoError(t, err)
	defer f.Close()
	for sc := bufio.NewScanner(f); sc.Scan(); {
		if line := sc.Text(); line != "" && line[0] != '#' {
			var r rating
			_, err := fmt.Sscan(line, &r.family, &r.word, &r.valence, &r.arousal)
			require.NoError(t, err, line)
			out = append(out, r)
		}
	}
	return out
}

// A published rating and ours must agree on the order of any two families that
// the published one puts at least this far apart, of 8 points.
const clear = 1.5

func TestValenceAndArousalInPublishedOrder(t *testing.T) {
	table := load(t)
	rs := ratings(t)
	require.Len(t, rs, 25) // cold and heat have no row as feelings
	for _, scale := range []struct {
		name   string
		theirs func(rating) float64
		ours   func(Family) float64
		differ string // a family that stands elsewhere with us
	}{
		{"valence", func(r rating) float64 { return r.valence }, func(f Family) float64 { return f.Valence }, ""},
		// These ratings put tired well above calm. Russell's circle has them the
		// other way round (tired 268°, calm 316°), and so have we.
		{"arousal", func(r rating) float64 { return r.arousal }, func(f Family) float64 { return f.Arousal }, "tiredness"},
	} {
		for _, a := range rs {
			for _, b := range rs {
				if scale.theirs(a)-scale.theirs(b) < clear || a.family == scale.differ || b.family == scale.differ {
					continue
				}
				f, _ := table.Family(a.family)
				g, _ := table.Family(b.family)
				if scale.ours(f) <= scale.ours(g) {
					t.Errorf("%s: %s should lie above %s (%v, %v)", scale.name, a.family, b.family, scale.ours(f), scale.ours(g))
				}
			}
		}
		var x, y []float64
		for _, r := range rs {
			f, _ := table.Family(r.family)
			x, y = append(x, scale.theirs(r)), append(y, scale.ours(f))
		}
		t.Logf("%s: rank correlation %.3f over %d families", scale.name, spearman(x, y), len(rs))
	}
}

func spearman(x, y []float64) float64 {
	a, b := ranks(x), ranks(y)
	n := float64(len(a))
	m := (n + 1) / 2
	var ab, aa, bb float64
	for i := range a {
		ab += (a[i] - m) * (b[i] - m)
		aa += (a[i] - m) * (a[i] - m)
		bb += (b[i] - m) * (b[i] - m)
	}
	return ab / math.Sqrt(aa*bb)
}

func ranks(x []float64) []float64 {
	out := make([]float64, len(x))
	s := slices.Sorted(slices.Values(x))
	for i, v := range x {
		lo := sort.SearchFloat64s(s, v)
		hi := lo
		for hi < len(s) && s[hi] == v {
			hi++
		}
		out[i] = float64(lo+hi+1) / 2
	}
	return out
}

func TestPleasantAndUnpleasantSides(t *testing.T) {
	table := load(t)
	for _, r := range ratings(t) {
		f, _ := table.Family(r.family)
		require.Equal(t, r.valence > 5, f.Valence > 0, r.family)
	}
}

// Russell 1980 (JPSP 39, 1161–1178) places 28 words on a circle: pleasure at
// 0°, arousal at 90°. The degrees are typed from memory and doubtful in the
// decimals, so only the quadrant is checked, and only away from its borders.
func TestQuadrants(t *testing.T) {
	table := load(t)
	for _, c := range []struct {
		family  string
		word    string
		degrees float64
	}{
		{"joy", "delighted", 25}, {"excitement", "excited", 49}, {"fear", "afraid", 116}, {"anger", "angry", 99},
		{"frustration", "frustrated", 141}, {"worry", "distressed", 138}, {"sadness", "sad", 208},
		{"tiredness", "tired", 268}, {"calm", "calm", 316},
	} {
		f, _ := table.Family(c.family)
		at := c.degrees * math.Pi / 180
		if math.Abs(math.Cos(at)) > .1 {
			require.Equal(t, math.Cos(at) > 0, f.Valence > 0, "%s as %s", c.family, c.word)
		}
		require.Equal(t, math.Sin(at) > 0, f.Arousal > 0, "%s as %s", c.family, c.word)
	}
}

// Nummenmaa, Glerean, Hari & Hietanen 2014 (PNAS 111, 646–651) let people
// colour where a feeling rises. The regions are typed from memory of their
// figure and not checked against it, so this asks only that our usual signs
// touch half of them.
func TestSignsLieWherePeopleFeelThem(t *testing.T) {
	table := load(t)
	for id, rises := range map[string][]string{
		"anger":    {"head", "chest", "arms", "hands"},
		"fear":     {"chest", "head"},
		"worry":    {"chest", "belly"},
		"disgust":  {"throat", "mouth", "belly"},
		"joy":      {"whole-body"},
		"love":     {"whole-body", "head", "chest"},
		"sadness":  {"face", "chest"},
		"surprise": {"head", "chest"},
		"shame":    {"face", "chest"},
		"pride":    {"head", "chest"},
		"jealousy": {"head", "chest"},
	} {
		f, _ := table.Family(id)
		hit := 0
		for _, place := range rises {
			if slices.ContainsFunc(f.Signs, func(s Sign) bool { return s.Place == place }) {
				hit++
			}
		}
		require.GreaterOrEqual(t, 2*hit, len(rises), id)
	}
}

// The 135 words of Shaver, Schwartz, Kirson & O'Connor 1987 (JPSP 52,
// 1061–1086) by their clusters, as reproduced second-hand. Clusters that have
// no family of ours (lust, and sympathy, which we leave to love) are left out.
func TestWordsAgreeWithThePublishedHierarchy(t *testing.T) {
	table := load(t)
	group := map[string]string{ // our families in their six groups
		"love": "love", "joy": "joy", "excitement": "joy", "pride": "joy", "relief": "joy", "calm": "joy",
		"surprise": "surprise", "anger": "anger", "frustration": "anger", "disgust": "anger", "jealousy": "anger",
		"sadness": "sadness", "shame": "sadness", "guilt": "sadness", "loneliness": "sadness", "pain": "sadness",
		"fear": "fear", "worry": "fear",
	}
	known, agree := 0, 0
	var differ []string
	for theirs, list := range map[string]string{
		"love":     "adoration affection love fondness liking attraction caring tenderness compassion sentimentality longing",
		"joy":      "amusement bliss cheerfulness gaiety glee jolliness joviality joy delight enjoyment gladness happiness jubilation elation satisfaction ecstasy euphoria enthusiasm zeal zest excitement thrill exhilaration contentment pleasure pride triumph eagerness hope optimism enthrallment rapture relief",
		"surprise": "amazement surprise astonishment",
		"anger":    "aggravation irritation agitation annoyance grouchiness grumpiness exasperation frustration anger rage outrage fury wrath hostility ferocity bitterness hate loathing scorn spite vengefulness dislike resentment disgust revulsion contempt envy jealousy torment",
		"sadness":  "agony suffering hurt anguish depression despair hopelessness gloom glumness sadness unhappiness grief sorrow woe misery melancholy dismay disappointment displeasure guilt shame regret remorse alienation isolation neglect loneliness rejection homesickness defeat dejection insecurity embarrassment humiliation insult",
		"fear":     "alarm shock fear fright horror terror panic hysteria mortification anxiety nervousness tenseness uneasiness apprehension worry distress dread",
	} {
		for _, w := range strings.Fields(list) {
			ws := table.FamilyOf(w)
			if len(ws) == 0 {
				continue
			}
			known++
			// A word of several families agrees where one of them does.
			if slices.ContainsFunc(table.groups(w, group), func(g string) bool { return g == theirs }) {
				agree++
			} else {
				differ = append(differ, w)
			}
		}
	}
	slices.Sort(differ)
	t.Logf("%d of 129 words known, %d in the published group, elsewhere: %v", known, agree, differ)
	// The words were filled in with the list in sight, so how many are known
	// says nothing. Where they stand does. The differences are on purpose: a
	// shock startles first, torment is bodily pain, mortification has come to
	// mean shame, and longing looks forward.
	require.Subset(t, []string{"longing", "mortification", "shock", "torment"}, differ)
}

func (t *Table) groups(word string, group map[string]string) (out []string) {
	for _, w := range t.FamilyOf(word) {
		out = append(out, group[w.Family])
	}
	return out
}
