package engine

// passedOn names what an engine is told of clocktell's environment, and nothing else: among
// the rest are tokens and passwords, which a foreign program has no use for and might log.
// Names one by one, without patterns, so that none of a secret can come to match.
var passedOn = []string{
	"PATH", "HOME", "USER", "LOGNAME", "SHELL", "TMPDIR", "TZ",
	"LANG", "LANGUAGE", "LC_ALL", "LC_CTYPE", "LC_NUMERIC", "LC_MESSAGES",
	"XDG_CACHE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_RUNTIME_DIR", // where a program keeps its networks
	"LD_LIBRARY_PATH", "DYLD_LIBRARY_PATH",
	"OMP_NUM_THREADS", "OMP_PROC_BIND", "OMP_PLACES", "CUDA_VISIBLE_DEVICES", // cores and graphics cards
	"SYSTEMROOT", "SYSTEMDRIVE", "WINDIR", "COMSPEC", "PATHEXT", "TEMP", "TMP", // Windows
	"USERPROFILE", "APPDATA", "LOCALAPPDATA", "PROGRAMDATA", "PROGRAMFILES",
	"NUMBER_OF_PROCESSORS", "PROCESSOR_ARCHITECTURE",
}

// environment returns what an engine is started with. lookup finds a variable, as
// os.LookupEnv does. It is never nil, which os/exec takes for all there is.
func environment(lookup func(name string) (string, bool)) []string {
	env := []string{}
	for _, name := range passedOn {
		if value, set := lookup(name); set {
			env = append(env, name+"="+value)
		}
	}
	return env
}
