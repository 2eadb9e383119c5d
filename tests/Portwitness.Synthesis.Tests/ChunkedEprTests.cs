using System.Text.Json;
using Portwitness.PowerDelivery.Framing;
using Portwitness.Testing;
using Portwitness.Tests;

namespace Portwitness.Synthesis.Tests;

/// <summary>Source of what is expected: shared/vectors/frames.json, whose frames and CRCs were computed with zlib.</summary>
public class ChunkedEprTests
{
    private static readonly JsonElement Frames = JsonDocument.Parse(
        File.ReadAllText(Repository.PathOf("shared", "vectors", "frames.json"))).RootElement.GetProperty("entries");

    [Fact]
    public void ChargerOf140W_SendsTheFramesOfTheVectors()
    {
        Synthesised capture = Synthesised.Of(ChunkedEprScript.Text);

        string[] frames = [.. capture.Spoken.Select(message => $"{message.Hex} {message.Crc:X8}")];
        string[] expected = [.. new[] { "epr-chunk-0", "epr-chunk-request", "epr-chunk-1", "epr-request" }.Select(Vector)];
        int first = Array.IndexOf(frames, expected[0]);
        frames[first..(first + 3)].Should().Equal(expected[..3]);
        frames.Where(frame => frame == expected[3]).Should().ContainSingle();
    }

    [Fact]
    public void EnteringEpr_AsksTheCableBetweenAcknowledgedAndSucceeded()
    {
        Synthesised capture = Synthesised.Of(ChunkedEprScript.Text);

        // EPR_Mode objects: R3.2v1.1 Table 6.50 with actions 1, 2, 3 in bits 31 to 24; Discover Identity on SOP'.
        capture.Spoken.SkipWhile(message => message.Name != "EPR_Mode").Take(8).Select(message => $"{message.Sop.ToText()} {message.Hex}")
            .Should().Equal(
                "SOP 8A1600008C01", "SOP AA1B00000002", "SOP' 8F1001A000FF", "SOP' 8F5141A000FF00006018000000000000000040260A11",
                "SOP AA1D00000003",
                "SOP B1FF24802C9181082CD102002CB10400F4410600F4B104E0000000000000", "SOP 9198008C0000",
                "SOP B1B124880000F4C108008C9630D2");
    }

    private static string Vector(string name)
    {
        JsonElement frame = Frames.EnumerateArray().Single(entry => entry.GetProperty("name").GetString() == name);
        return $"{frame.GetProperty("bytes").GetString()!.Replace(" ", "")} {frame.GetProperty("crc").GetString()![2..]}";
    }
}
