package prompt

import "testing"

func TestLanguageOf(t *testing.T) {
	for code, want := range map[string]Language{"en": English, "de": German} {
		if got, err := LanguageOf(code); got != want || err != nil {
			t.Errorf("%s: %v, %v", code, got, err)
		}
	}
	for _, code := range []string{"", "EN", "xx"} {
		got, err := LanguageOf(code)
		if want := `"` + code + `" is no language of the prompts; there are "en", "de"`; got != nil || err == nil || err.Error() != want {
			t.Errorf("%q: %v, %v; want %s", code, got, err, want)
		}
	}
}
