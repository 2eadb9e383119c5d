using System.Collections.Concurrent;
using Portwitness.Analysis.Findings;
using Portwitness.Tests;

namespace Portwitness.Testing;

/// <summary>
/// What rules tell users, word for word: every finding of the small cases of the tests of Analysis and Product is a line of
/// Golden/findings.txt, and one that is not there fails its test. UPDATE_GOLDEN=1 adds what is new; lines that nothing tells any more
/// are taken out by removing the file first. Read the difference: it is what users will read.
/// </summary>
public static class GoldenFindings
{
    private static readonly string Path = Repository.PathOf("tests", "Portwitness.Testing", "Golden", "findings.txt");
    private static readonly bool Updates = Environment.GetEnvironmentVariable("UPDATE_GOLDEN") == "1";
    private static readonly ConcurrentDictionary<string, bool> Lines = Read();

    // Switches between mutants make strings of phrases, which then print their values otherwise.
    private static readonly bool WordsCount = Environment.GetEnvironmentVariable("PORTWITNESS_MUTANTS") != "1";

    /// <summary>The findings themselves, each of which is known word for word.</summary>
    public static IReadOnlyCollection<Finding> Check(IReadOnlyCollection<Finding> findings)
    {
        foreach (string line in findings.SelectMany(Places).Select(Line))
        {
            if (Updates)
            {
                Lines.TryAdd(line, true);
            }
            else if (WordsCount)
            {
                Lines.ContainsKey(line).Should().BeTrue($"{Path} should know \"{line}\"; if it is right, UPDATE_GOLDEN=1 adds it");
            }
        }

        return findings;
    }

    private static ConcurrentDictionary<string, bool> Read()
    {
        if (Updates)
        {
            AppDomain.CurrentDomain.ProcessExit += static (_, _) => Save();
        }

        return new(Stored().Select(line => KeyValuePair.Create(line, true)), StringComparer.Ordinal);
    }

    // The tests of two projects may end at the same time; what one has added stays.
    private static void Save()
    {
        using Mutex one = new(false, "portwitness-findings");
        one.WaitOne();
        File.WriteAllLines(Path, Lines.Keys.Union(Stored(), StringComparer.Ordinal).Order(StringComparer.Ordinal));
        one.ReleaseMutex();
    }

    private static string[] Stored() => File.Exists(Path) ? File.ReadAllLines(Path) : [];

    private static IEnumerable<Finding> Places(Finding finding) => finding.FurtherPlaces
        .Select(place => finding with { Detail = place.Detail, Expected = place.Expected, Observed = place.Observed })
        .Prepend(finding);

    private static string Line(Finding finding) => string.Join(" | ", new[]
    {
        finding.Rule, finding.Severity.ToString().ToLowerInvariant(), $"{finding.Verdict}", finding.Title, finding.Clause,
        finding.Detail.Text(), finding.Expected.Text(), finding.Observed.Text(), finding.NextStep.Text(),
    }.Select(part => part.ReplaceLineEndings(" / ")));
}
