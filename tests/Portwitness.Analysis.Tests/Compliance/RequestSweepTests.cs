using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules.Requests;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.Testing.Compliance;
using Xunit.Abstractions;

namespace Portwitness.Analysis.Tests.Compliance;

/// <summary>Legal requests to compliant sources, and requests that are wrong in one point.</summary>
public class RequestSweepTests(ITestOutputHelper output)
{
    [Fact]
    public void LegalRequest_BreaksNothingOnEitherSide()
    {
        int cases = 0;
        List<string> wrong = [];
        foreach ((CompliantSource source, IReadOnlyList<uint> words, bool epr) in Lists())
        {
            foreach (RequestObject request in RequestsTo.Legal(words))
            {
                cases += 2;
                wrong.AddRange(Found(words, epr, request, RequestAnswer.Accepted).Select(rule => $"{rule}: 0x{request.Raw:X8} accepted, {source}"));
                wrong.AddRange(Found(words, epr, request, RequestAnswer.Rejected).Where(rule => rule.StartsWith("Violation", StringComparison.Ordinal))
                    .Select(rule => $"{rule}: 0x{request.Raw:X8} rejected, {source}"));
            }
        }

        output.WriteLine($"{cases} legal requests");
        string.Join('\n', wrong.Take(10)).Should().BeEmpty($"{wrong.Count} of {cases}");
        cases.Should().BeGreaterThan(100_000);
    }

    [Fact]
    public void IllegalRequest_IsFoundAndItsGrantAccused()
    {
        int cases = 0;
        List<string> wrong = [];
        foreach ((CompliantSource source, IReadOnlyList<uint> words, bool epr) in Lists())
        {
            foreach ((string rule, RequestObject request) in RequestsTo.Illegal(words))
            {
                cases++;
                string[] found = [.. Found(words, epr, request, RequestAnswer.Accepted).Distinct().Order(StringComparer.Ordinal)];
                string[] expected = ["Violation invalid-request-accepted", $"Violation {rule}"];
                if (!found.SequenceEqual(expected))
                {
                    wrong.Add($"{rule}: 0x{request.Raw:X8} gave {string.Join(", ", found)}, {source}");
                }
            }
        }

        output.WriteLine($"{cases} illegal requests");
        string.Join('\n', wrong.Take(10)).Should().BeEmpty($"{wrong.Count} of {cases}");
        cases.Should().BeGreaterThan(40_000);
    }

    private static IEnumerable<(CompliantSource Source, IReadOnlyList<uint> Words, bool Epr)> Lists()
    {
        foreach (CompliantSource source in CompliantSources.AtFullPower().Where(source => !source.RoundUp))
        {
            yield return (source, source.Spr, false);
            if (source.IsEpr && source.CableMilliamperes == 5000)
            {
                yield return (source, source.Epr, true);
            }
        }
    }

    // The request is that of a product under test, so that its faults keep their severity.
    private static IEnumerable<string> Found(IReadOnlyList<uint> words, bool epr, RequestObject request, RequestAnswer answer)
    {
        int at = request.ObjectPosition - 1;
        ObservedRequest observed = new()
        {
            Place = default,
            Message = epr ? MessageKind.EPRRequest : MessageKind.Request,
            Request = request,
            Copy = epr && at >= 0 && at < words.Count ? new SourcePowerObject(words[at]) : null,
            SaysRevision3 = true,
            Offers = [.. words.Select((word, index) => new OfferedObject(index + 1, word, uint.MaxValue))],
            EprMode = epr,
            ByPartner = true,
            Answer = answer,
            NothingMissed = true,
        };
        FindingLog log = new() { File = "requests" };
        foreach (RequestRule rule in RuleSet.OfCaptures.Requests)
        {
            rule.Check(observed, log);
        }

        return log.Findings.Select(finding => $"{finding.Severity} {finding.Rule}");
    }
}
