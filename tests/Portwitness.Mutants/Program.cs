using System.Diagnostics;
using System.Globalization;
using Portwitness.Mutants;

// mutation-score.sh runs it and says what it is for:
//   Portwitness.Mutants FOLDER PROJECT REPORT RESULTS TESTS       every mutant that RESULTS does not have yet
//   Portwitness.Mutants FOLDER PROJECT REPORT RESULTS TESTS ID    one, active from the start, for what runs once a process
// TESTS is -NAME,... for all but those, or +NAME,... for those alone; a part of a test's name is enough.
const int Seconds = 180;
const int HungExit = 9;
string folder = Path.GetFullPath(args[0]);
string results = Path.GetFullPath(args[3]);
string[] names = args[4][1..].Split(',');
MutatedProject project = new(folder, args[1]);
int? only = args.Length > 5 ? int.Parse(args[5], CultureInfo.InvariantCulture) : null;
project.Active = only ?? MutatedProject.None;
Environment.SetEnvironmentVariable("PORTWITNESS_MUTANTS", "1");
using TestMethods tests = new(project.Tests, names, areWanted: args[4][0] == '+');
if (only is { } alone)
{
    bool found = Enumerable.Range(0, tests.All.Length).Any(tests.Fails);
    Tell(alone, found ? "killed" : "survived", "");
    return 0;
}

HashSet<int> done = File.Exists(results)
    ? [.. File.ReadLines(results).Select(line => int.Parse(line.Split(' ')[0], CultureInfo.InvariantCulture))]
    : [];
(ILookup<int, int> methodsOf, TimeSpan[] cost) = Coverage();
foreach (int mutant in MutatedProject.ListedIn(args[2]).Where(mutant => !done.Contains(mutant)))
{
    // Whatever runs only when types are made is not seen here: it takes a process of its own.
    if (!methodsOf.Contains(mutant))
    {
        Tell(mutant, "uncovered", "");
        continue;
    }

    project.Active = mutant;
    using Timer hung = new(_ => Hung(mutant), null, TimeSpan.FromSeconds(Seconds), Timeout.InfiniteTimeSpan);
    int killer = methodsOf[mutant].OrderBy(method => cost[method]).Select(method => (int?)method)
        .FirstOrDefault(method => tests.Fails(method!.Value)) ?? -1;
    project.Active = MutatedProject.None;
    Tell(mutant, killer < 0 ? "survived" : "killed", killer < 0 ? "" : tests.All[killer].Name);
}

return 0;

(ILookup<int, int> MethodsOf, TimeSpan[] Cost) Coverage()
{
    List<(int Mutant, int Method)> covered = [];
    TimeSpan[] took = new TimeSpan[tests.All.Length];
    for (int method = 0; method < tests.All.Length; method++)
    {
        int current = method;
        bool fails = false;
        long start = Stopwatch.GetTimestamp();
        int[] mutants = [.. project.CoveredBy(() => fails = tests.Fails(current))];
        took[method] = Stopwatch.GetElapsedTime(start);
        if (fails)
        {
            // It reads words that the mutated assembly prints otherwise; it finds no mutant.
            Console.Error.WriteLine($"{tests.All[method].Name} fails without any mutant and is left out: {tests.Problem}");
            continue;
        }

        covered.AddRange(mutants.Select(mutant => (mutant, current)));
    }

    return (covered.ToLookup(pair => pair.Mutant, pair => pair.Method), took);
}

void Tell(int mutant, string what, string by) => File.AppendAllText(results, $"{mutant} {what} {by}\n");

void Hung(int mutant)
{
    Tell(mutant, "hung", "");
    Environment.Exit(HungExit);
}
