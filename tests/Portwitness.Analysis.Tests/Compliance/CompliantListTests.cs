using Portwitness.Analysis.Findings;
using Portwitness.PowerDelivery.Headers;
using Portwitness.Testing.Compliance;
using Xunit.Abstractions;

namespace Portwitness.Analysis.Tests.Compliance;

/// <summary>No source that keeps the rules is accused, whatever is known of it.</summary>
public class CompliantListTests(ITestOutputHelper output)
{
    private const int Shown = 20;

    [Fact]
    public void CompliantSource_IsNeverAccused()
    {
        int cases = Sweep(CompliantSources.AtFullPower());
        output.WriteLine($"{cases} lists of sources at their whole power");
        cases.Should().BeGreaterThan(100_000);
    }

    // R3.2v1.1 Tables 10.3 and 10.13.
    [Fact]
    public void ReducedSource_IsNeverAccused()
    {
        int cases = Sweep(CompliantSources.Reduced());
        output.WriteLine($"{cases} lists of sources with a reduced power");
        cases.Should().BeGreaterThan(100_000);
    }

    private static int Sweep(IEnumerable<CompliantSource> sources)
    {
        int cases = 0;
        List<string> wrong = [];
        foreach (CompliantSource source in sources)
        {
            IReadOnlyList<uint> spr = source.Spr;
            foreach (ComplianceCase known in ComplianceCase.Of(source))
            {
                cases++;
                Note(wrong, known, known.Check(MessageKind.SourceCapabilities, spr), spr);
                if (source.IsEpr)
                {
                    cases += 2;
                    Note(wrong, known, known.Check(MessageKind.EPRSourceCapabilities, source.EprInSprMode, false), source.EprInSprMode);
                    if (source.CableMilliamperes == 5000)
                    {
                        Note(wrong, known, known.Check(MessageKind.EPRSourceCapabilities, source.Epr, true), source.Epr);
                    }
                }
            }
        }

        string.Join('\n', wrong.Take(Shown)).Should().BeEmpty($"{wrong.Count} accusations of {cases}");
        return cases;
    }

    private static void Note(List<string> wrong, ComplianceCase known, IReadOnlyList<Finding> findings, IReadOnlyList<uint> words)
    {
        foreach (Finding finding in known.Wrong(findings))
        {
            wrong.Add($"{finding.Rule} {finding.Severity}: {finding.Detail} [{known.Source}; known: {known.Knows}] "
                + string.Join(' ', words.Select(word => $"0x{word:X8}")));
        }
    }
}
