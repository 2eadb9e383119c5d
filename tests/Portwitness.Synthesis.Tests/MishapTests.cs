using Portwitness.PowerDelivery.Framing;
using Portwitness.Testing;

namespace Portwitness.Synthesis.Tests;

/// <summary>Faults on purpose. Retries: R3.2v1.1 6.7.1 and Table 6.70.</summary>
public class MishapTests
{
    [Theory]
    [InlineData("bad-crc", 2, "bad good")]
    [InlineData("bad-crc 2", 2, "bad bad good")]
    [InlineData("bad-crc 3", 2, "bad bad bad")]
    [InlineData("bad-crc 3", 1, "bad bad bad good")]
    [InlineData("drop-goodcrc", 2, "good good")]
    [InlineData("drop-goodcrc 4", 2, "good good good")]
    public void MessageThatIsNotAcknowledged_IsSentAgainWithItsMessageId(string mishap, int revision, string attempts)
    {
        Synthesised capture = Synthesised.Of(
            $"revision: {(revision == 1 ? "2.0" : "3.x")}\nsource: [5V 3A]\nsteps: [advertise with {mishap}, accept]");

        SentMessage[] lists = [.. capture.Messages.Where(message => message.Name == "Source_Capabilities")];
        lists.Select(message => message.CrcOk == false ? "bad" : "good").Should().Equal(attempts.Split(' '));
        lists.Should().OnlyContain(message => message.Header.MessageId == 0)
            .And.OnlyContain(message => (message.Crc == MessageCrc.Of(message.Bytes)) == (message.CrcOk != false));
        capture.Only("Accept").Header.MessageId.Should().Be(1);
    }

    [Fact]
    public void WrongCount_CountsOneObjectTooMany()
    {
        SentMessage list = Synthesised.Of("source: [5V 3A, 9V 3A]\nsteps: [advertise with wrong-count]").Only("Source_Capabilities");
        (list.Header.ObjectCount, list.Bytes.Length).Should().Be((3, 10));

        SentMessage full = Synthesised.Steps("advertise with wrong-count").Only("Source_Capabilities");
        (full.Header.ObjectCount, full.Bytes.Length).Should().Be((6, 30));
    }

    [Theory]
    [InlineData("drop-chunk 0", "R1 C1")]
    [InlineData("drop-chunk 1", "C0 R1")]
    [InlineData("repeat-chunk 0", "C0 C0 R1 C1")]
    [InlineData("repeat-chunk 1", "C0 R1 C1 C1")]
    public void Chunks_AreMissingOrTwice(string mishap, string expected)
    {
        Synthesised capture = Synthesised.Steps($"get-epr-source-cap with {mishap}");

        // Extended header: chunk number in bits 14 to 11, request in bit 10 (R3.2v1.1, Table 6.3).
        SentMessage[] chunks = [.. capture.Spoken.Where(message => message.Name == "EPR_Source_Capabilities")];
        chunks.Select(message => $"{((message.Bytes[3] & 4) != 0 ? "R" : "C")}{(message.Bytes[3] >> 3) & 15}").Should().Equal(expected.Split(' '));
        chunks.Where(message => message.Header.SourceOrCablePlug).Select(message => message.Header.MessageId).Should().OnlyHaveUniqueItems();
    }

    [Theory]
    [InlineData("pause 1s with bad-crc")]
    [InlineData("accept with wrong-count")]
    [InlineData("advertise with drop-chunk 0")]
    [InlineData("get-epr-source-cap with repeat-chunk 2")]
    public void MishapThatTheStepCannotSuffer_IsAFault(string step) =>
        Synthesised.Faults(Synthesised.Script(step)).Should().Equal("6:5 script-step-impossible");
}
