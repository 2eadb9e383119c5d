using System.Text;
using Portwitness.Captures.JsonLines;

namespace Portwitness.Captures.Tests;

/// <summary>What a header states of its times (captures/FORMAT.md).</summary>
public class HeaderTimeTests
{
    [Theory]
    [InlineData("\"time_of\":\"start\",\"resolution_us\":1000", MessageMoment.Start, 1000)]
    [InlineData("\"time_of\":\"end\"", MessageMoment.End, null)]
    [InlineData("\"time_of\":null,\"resolution_us\":null", MessageMoment.Unknown, null)]
    public void StatedTimes_AreReadAndWrittenAgain(string members, MessageMoment moment, int? resolution)
    {
        string text = $"{{\"capture\":1,{members}}}\n";
        CaptureHeader header = Recording.Of(text).Header;

        (header.TimeOf, header.ResolutionUs).Should().Be((moment, resolution));
        using MemoryStream written = new();
        using (CaptureWriter writer = new(written))
        {
            writer.OnHeader(header);
        }

        CaptureHeader again = Recording.Of(Encoding.UTF8.GetString(written.ToArray())).Header;
        (again.TimeOf, again.ResolutionUs).Should().Be((moment, resolution));
    }

    [Theory]
    [InlineData("\"time_of\":\"middle\"")]
    [InlineData("\"time_of\":1")]
    [InlineData("\"resolution_us\":0")]
    [InlineData("\"resolution_us\":1.5")]
    [InlineData("\"resolution_us\":2000000")]
    public void OtherTimes_AreFaultsAndNotStated(string member)
    {
        Recording recording = Recording.Of($"{{\"capture\":1,{member}}}\n");

        recording.Faults.Should().ContainSingle();
        (recording.Header.TimeOf, recording.Header.ResolutionUs).Should().Be((MessageMoment.Unknown, null));
    }
}
