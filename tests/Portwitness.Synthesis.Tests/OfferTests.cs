using System.Buffers.Binary;
using System.Globalization;
using Portwitness.Testing;

namespace Portwitness.Synthesis.Tests;

/// <summary>Words computed with the kernel header's macros, or from the bit tables of R3.2v1.1, as in shared/vectors.</summary>
public class OfferTests
{
    [Theory]
    [InlineData("5V 3A", "0001912C")]
    [InlineData("5V 3A unconstrained", "0801912C")]
    [InlineData("5V 3A unconstrained usb-communications dual-role-data", "0E01912C")]
    [InlineData("5V 3A unchunked dual-role-data usb-communications unconstrained usb-suspend dual-role-power", "3F01912C")]
    [InlineData("5V 3A unconstrained epr", "0881912C")]
    [InlineData("5V 0A", "00019000")]
    [InlineData("9V 2.22A", "0002D0DE")]
    [InlineData("9 V 3 A", "0002D12C")]
    [InlineData("12V 1500mA", "0003C096")]
    [InlineData("20000mV 3.25a", "00064145")]
    [InlineData("battery 3.3-21V 60W", "5A4108F0")]
    [InlineData("variable 4.75-5.5V 3A", "86E17D2C")]
    [InlineData("PPS 5-11V 3A", "C0DC323C")]
    [InlineData("PPS 3.3V-5.9V 3A", "C076213C")]
    [InlineData("PPS 5–16V 3A", "C140323C")]
    [InlineData("pps 5-21v 5a", "C1A43264")]
    [InlineData("PPS 3.3-21V 3.25A limited", "C9A42141")]
    [InlineData("SPR AVS 2.67A", "E0042C00")]
    [InlineData("SPR AVS 3A/3.25A", "E004B145")]
    [InlineData("SPR AVS 4A/3.35A", "E006414F")]
    [InlineData("0xF1234567", "F1234567")]
    public void SourceOffer_IsEncodedAsTheVectorsSay(string offer, string word) =>
        FirstObject($"source: [\"{offer}\"]\nsteps: [advertise]").Should().Be(word);

    [Theory]
    [InlineData("28V 5A", "0008C1F4")]
    [InlineData("48V 5A", "000F01F4")]
    [InlineData("EPR AVS 15-28V 140W", "D230968C")]
    [InlineData("EPR AVS 15-36V 180W", "D2D096B4")]
    [InlineData("EPR AVS 15-48V 240W", "D3C096F0")]
    public void EprOffer_StandsAtPosition8(string offer, string word)
    {
        Synthesised capture = Synthesised.Of(
            $"cable: EPR captive\nsource: [5V 3A, {offer}]\nsteps: [advertise, enter-epr at 100W, request 8 at {(offer.StartsWith('E') ? "20V " : "")}5A]");

        capture.Only("Source_Capabilities").Header.ObjectCount.Should().Be(1);
        Word(capture.Only("EPR_Request").Bytes, 6).Should().Be(word);
    }

    // R3.2v1.1 Tables 6.9, 6.14, 6.15: the Peak Current fields are bits 21 to 20, and 27 to 26.
    [Theory]
    [InlineData("9V 3A peak 3", "0032D12C")]
    [InlineData("SPR AVS 3A/3A peak 1", "E404B12C")]
    public void PeakCurrent_IsCoded(string offer, string word) =>
        FirstObject($"source: [{offer}]\nsteps: [advertise]").Should().Be(word);

    // R3.2v1.1 Tables 6.17 to 6.22; other bits as in the vectors of sources.
    [Theory]
    [InlineData("5V 3A", "0001912C")]
    [InlineData("5V 3A higher-capability", "1001912C")]
    [InlineData("5V 3A fast-role-swap 3 dual-role-power unconstrained usb-communications dual-role-data", "2F81912C")]
    [InlineData("battery 3.3-21V 60W", "5A4108F0")]
    [InlineData("variable 4.75-5.5V 3A", "86E17D2C")]
    [InlineData("PPS 5-11V 3A", "C0DC323C")]
    [InlineData("SPR AVS 3A/5A", "E004B1F4")]
    [InlineData("0x12345678", "12345678")]
    public void SinkNeed_IsEncoded(string need, string word)
    {
        Synthesised capture = Synthesised.Of($"sink: [{need}]\nsteps: [get-sink-cap]");

        Word(capture.Only("Sink_Capabilities").Bytes, 2).Should().Be(word);
    }

    [Theory]
    [InlineData("5.013V 3A", "5.013V 3A\" cannot be coded: Voltage is coded in steps of 50")]
    [InlineData("52V 3A", "Voltage holds 0 to 1023")]
    [InlineData("9V", "\"9V\" ends where a current such as 3.25A was expected")]
    [InlineData("-9V 3A", "\"-\" stands where an offer such as 9V 3A")]
    [InlineData("9V 3W", "\"3W\" stands where a current such as 3.25A was expected, in \"9V 3W\"")]
    [InlineData("9V 3A shiny", "\"shiny\" was not understood")]
    [InlineData("9V 3A peak 4", "\"peak\" is followed by a code of 0 to 3")]
    [InlineData("PPS 9V 3A", "a range such as 5-21V was expected")]
    [InlineData("SPR PPS 3A", "\"PPS\" stands where \"AVS\" after SPR or EPR was expected")]
    [InlineData("SPR AVS 3A/3A/3A", "\"3A\" was not understood")]
    [InlineData("EPR AVS 15-28V 140.5W", "PDP is coded in steps of 1000")]
    [InlineData("0x123456789", "stands where an offer such as")]
    [InlineData("tea", "stands where an offer such as")]
    public void OfferThatCannotBeUsed_IsExplainedWithItsPlace(string offer, string reason)
    {
        var faults = ScriptReader.Read($"source: [5V 3A, {offer}]\nsteps: [advertise]").Faults;

        faults.Should().ContainSingle();
        (faults[0].Line, faults[0].Column, faults[0].Code).Should().Be((1, 17, "script-value-wrong"));
        faults[0].Detail.Should().Contain(reason);
    }

    private static string FirstObject(string script) => Word(Synthesised.Of(script).Only("Source_Capabilities").Bytes, 2);

    private static string Word(byte[] message, int at) =>
        BinaryPrimitives.ReadUInt32LittleEndian(message.AsSpan(at)).ToString("X8", CultureInfo.InvariantCulture);
}
