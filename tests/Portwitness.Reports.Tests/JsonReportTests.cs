using System.Text.Json;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Json;

namespace Portwitness.Reports.Tests;

public sealed class JsonReportTests
{
    [Fact]
    public void EmptyListsShow_UnknownValuesDoNot_AndEnumsAreWords()
    {
        JsonElement json = Parse(writer => JsonReport.Write(
            writer, new Finding { Rule = "a-rule", Severity = Severity.Violation, Verdict = Verdict.CannotTell }, indented: false));

        json.GetProperty("arrangement").GetArrayLength().Should().Be(0);
        json.GetProperty("severity").GetString().Should().Be("violation");
        json.GetProperty("verdict").GetString().Should().Be("cannot_tell");
        json.TryGetProperty("timeUs", out _).Should().BeFalse();
        json.TryGetProperty("objectPosition", out _).Should().BeFalse();
    }

    [Fact]
    public void NamesWithDigits_AreAsTheContractSays()
    {
        JsonElement json = Parse(writer => JsonReport.Write(
            writer, new SprAvsSupply { MaxCurrent15VMa = 3000, MaxCurrent20VMa = 0 }, indented: true));

        json.GetProperty("maxCurrent15vMa").GetInt32().Should().Be(3000);
        json.GetProperty("maxCurrent20vMa").GetInt32().Should().Be(0);
    }

    [Fact]
    public void WhatATerminalObeys_IsEscaped()
    {
        using StringWriter writer = new();
        JsonReport.Write(writer, new Fault { File = "\u001b[2J\u009b\u202e\u2028" }, indented: false);

        writer.ToString().Should().Contain("\\u001b[2J\\u009b\\u202e\\u2028");
    }

    [Fact]
    public void StreamedMessages_AreTheSameAsKeptOnes()
    {
        // The tricky text looks like the member that is left out.
        DecodedCapture capture = new() { File = "\"messages\": [ ], ", MessageCount = 3 };
        DecodedMessage[] messages = [.. Enumerable.Range(1, 3).Select(index => new DecodedMessage { Index = index, Hex = "4102" })];
        using StringWriter writer = new();
        JsonReport.StreamedCapture streamed = JsonReport.BeginCapture(writer, indented: false);
        streamed.Add(new DecodedMessages { Messages = { messages[..2] } });
        streamed.Add(new DecodedMessages { Messages = { messages[2] } });
        streamed.End(capture);

        DecodedCapture kept = new(capture) { Messages = { messages } };
        Google.Protobuf.JsonParser.Default.Parse<DecodedCapture>(writer.ToString()).Should().Be(kept);
        writer.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries).Should().ContainSingle();
    }

    private static JsonElement Parse(Action<TextWriter> write)
    {
        using StringWriter writer = new();
        write(writer);
        return JsonDocument.Parse(writer.ToString()).RootElement;
    }
}
