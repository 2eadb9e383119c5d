using System.Text;
using System.Text.RegularExpressions;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Product.Tests;

/// <summary>A file of several ports is read once, and says of each port what a file of its own says.</summary>
public partial class PortsOfOneFileTests
{
    private const string Header = "\"edition\":\"R3.0\"";

    // Pieces of every length end within lines of either port.
    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(4096)]
    public void EachPort_IsReadAsInAFileOfItsOwn(int piece)
    {
        string first = Records("0801912C 0002D12C 0004B12C", "C1");
        string second = Records("0801912C 0002D0DE", "C2");
        string[] together =
            [$$"""{"capture":1,{{Header}},"ports":["C1","C2"]}""", .. first.Split('\n').Zip(second.Split('\n'), static (one, other) => $"{one}\n{other}")];

        ProductAnalysis shared = Check(
            ["both.jsonl"], "captures: [{file: both.jsonl, port: C1, in_use: [C1]}, {file: both.jsonl, port: C2, in_use: [C2]}]",
            [Encoding.UTF8.GetBytes(string.Join('\n', together))], piece);
        ProductAnalysis apart = Check(
            ["c1.jsonl", "c2.jsonl"], "captures: [{file: c1.jsonl, port: C1, in_use: [C1]}, {file: c2.jsonl, port: C2, in_use: [C2]}]",
            [Alone(first), Alone(second)], piece);

        shared.Faults.Should().BeEmpty("what one port leaves of the file is the other's");
        shared.Verdict.Should().Be(apart.Verdict);
        Told(shared).Should().Equal(Told(apart)).And.NotBeEmpty();
        Offered(shared).Should().Equal(Offered(apart)).And.HaveCount(2);
    }

    private static byte[] Alone(string records) => Encoding.UTF8.GetBytes($$"""{"capture":1,{{Header}}}""" + "\n" + PortMember().Replace(records, ""));

    private static ProductAnalysis Check(string[] files, string captures, byte[][] contents, int piece)
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml", $"product: x\nlabel: \"USB-C1 45W Max\\nUSB-C2: 5V 3A, 9V 3A\"\n{captures}\n", null);
        check.Files.Should().Equal(files, "a file is needed once, whatever the number of its ports");
        foreach ((string file, byte[] bytes) in files.Zip(contents))
        {
            CaptureIntake intake = check.Open(file);
            for (int at = 0; at < bytes.Length; at += piece)
            {
                intake.Write(bytes.AsMemory(at, Math.Min(piece, bytes.Length - at)));
            }

            check.Close();
        }

        return check.Complete();
    }

    private static IEnumerable<string> Told(ProductAnalysis analysis) =>
        analysis.Findings.Select(static one => $"{one.Rule} {one.Port} {one.MessageIndex} {NameOfFile().Replace(one.Detail.ToString(), "file")}");

    private static IEnumerable<string> Offered(ProductAnalysis analysis) =>
        analysis.Captures.Select(static one => $"{one.Port} {one.MessageCount}");

    private static string Records(string words, string port)
    {
        byte[] list = CapabilityMessage.Bytes(MessageKind.SourceCapabilities, 2, CapabilityMessage.Words(words));
        return string.Join('\n', new[] { Convert.ToHexString(list), "82102CB10413", "A303", "A605" }
            .Select((hex, index) => $$"""{"t":{{100000 + (index * 2000)}},"sop":"SOP","hex":"{{hex}}","port":"{{port}}"}"""));
    }

    [GeneratedRegex("[a-z0-9]+\\.jsonl")]
    private static partial Regex NameOfFile();

    [GeneratedRegex(",\"port\":\"C.\"")]
    private static partial Regex PortMember();
}
