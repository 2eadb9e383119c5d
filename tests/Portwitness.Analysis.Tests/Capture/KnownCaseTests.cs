using System.IO.Compression;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;
using Portwitness.Tests;

namespace Portwitness.Analysis.Tests.Capture;

/// <summary>Captures of which the right answer is known (Data/README.md): what is legal is not accused, what is broken is named.</summary>
public class KnownCaseTests
{
    // R1.0 and R2.0 before v1.2: profiles 1 to 5 (the press of 2012); a header cannot tell them from the power rules.
    [Theory]
    [InlineData("F8-r20-profile4.jsonl", 60_000)]
    [InlineData("F8b-r20-header-5-12-20.jsonl", 60_000)]
    public void ListOfAProfile_IsNotDoubted(string file, int milliwatts)
    {
        CaptureAnalysis analysis = Run(file);

        analysis.Findings.Where(finding => finding.Severity != Severity.Note).Should().BeEmpty();
        analysis.Advertisements[0].Pdp!.Value.Milliwatts.Should().Be(milliwatts);
    }

    // Devices of R2.0. What that edition says of flags beyond the first object, order and repeated voltages was not read.
    [Theory]
    [InlineData("cc-line-2.vcd.gz", "flags-beyond-first-object")]
    [InlineData("cc-line-3.vcd.gz", "objects-out-of-order voltage-offered-twice")]
    [InlineData("cc-line-4.vcd.gz", "flags-beyond-first-object")]
    public void RecordingOfOldDevices_AccusesNobody(string file, string cautions)
    {
        Finding[] found = [.. Run(file).Findings.Where(finding => CaptureRules.Descriptions.Any(rule =>
            rule.Name == finding.Rule && (rule.Category is RuleCategory.Messages or RuleCategory.Capabilities)))];

        found.Should().OnlyContain(finding => finding.Severity == Severity.Caution || finding.Severity == Severity.Note);
        found.Where(finding => finding.Severity == Severity.Caution).Select(finding => finding.Rule).Distinct()
            .Should().BeEquivalentTo(cautions.Split(' '));
    }

    [Theory]
    [InlineData("M7-pps-beyond-pdp.jsonl", "violation pps-current-beyond-pdp 6")]
    [InlineData("M17-reserved-type.jsonl", "caution reserved-message-type")]
    [InlineData("M19-status-3-bytes.jsonl", "violation data-block-too-short")]
    [InlineData("M21-epr-bit-changes.jsonl", "violation static-fact-changed 1")]
    [InlineData("M22-scedb-epr-140-bit-clear.jsonl", "violation epr-flag-inconsistent 1")]
    [InlineData("M23-epr-avs-250W.jsonl", "violation power-above-240w 11")]
    [InlineData("M30-two-spr-avs.jsonl", "violation avs-object-repeated 6")]
    [InlineData("M31-epr-bit-45W.jsonl", "caution epr-flag-inconsistent 1")]
    [InlineData("M32-spr-avs-in-R3.0.jsonl", "violation object-newer-than-edition 4")]
    public void BrokenCapture_IsNamed(string file, string expected)
    {
        GoldenFindings.Check(Run(file).Findings).Where(finding => finding.Severity != Severity.Note)
            .Select(finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Rule} {finding.ObjectPosition}".TrimEnd())
            .Distinct().Should().Equal(expected);
    }

    // The Revision message excludes a version that may give the type a meaning; a single port has no power to share.
    [Fact]
    public void StatementThatSettlesIt_MakesItAViolation()
    {
        string reserved = Text("M17-reserved-type.jsonl")
            + "{\"t\":1100000,\"sop\":\"SOP\",\"hex\":\"9808\"}\n"
            + "{\"t\":1100600,\"sop\":\"SOP\",\"hex\":\"A109\"}\n"
            + "{\"t\":1103000,\"sop\":\"SOP\",\"hex\":\"AC1F00001132\"}\n";
        Said(CaptureRun.Text(reserved)).Should().Contain("Violation reserved-message-type");
        Said(CaptureRun.Text(reserved.Replace("00001132", "00001232", StringComparison.Ordinal)))
            .Should().Contain("Caution reserved-message-type", "R3.2v1.2 was not read");

        CaptureOptions single = new() { File = "capture", Sharing = PowerSharing.None };
        Said(CaptureRun.Text(Text("M31-epr-bit-45W.jsonl"), single)).Should().Contain("Violation epr-flag-inconsistent");
    }

    private static IEnumerable<string> Said(CaptureAnalysis analysis) =>
        analysis.Findings.Select(finding => $"{finding.Severity} {finding.Rule}");

    private static string PathOf(string file) => Repository.PathOf("tests", "Portwitness.Analysis.Tests", "Data", file);

    private static string Text(string file) => File.ReadAllText(PathOf(file));

    private static CaptureAnalysis Run(string file)
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = file });
        using Stream stream = file.EndsWith(".gz", StringComparison.Ordinal)
            ? new GZipStream(File.OpenRead(PathOf(file)), CompressionMode.Decompress)
            : File.OpenRead(PathOf(file));
        byte[] piece = new byte[65536];
        for (int count = stream.Read(piece); count > 0; count = stream.Read(piece))
        {
            analyzer.Write(piece.AsSpan(0, count));
        }

        return analyzer.Complete();
    }
}
