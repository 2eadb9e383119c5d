using CsCheck;
using Portwitness.Testing;

namespace Portwitness.Synthesis.Tests;

/// <summary>Source of what is expected: captures/SYNTHESIS.md.</summary>
public class ScriptFaultTests
{
    [Theory]
    [InlineData("", "1:1 script-unreadable")]
    [InlineData("- attach", "1:1 script-unreadable")]
    [InlineData("port: C1", "1:1 script-unreadable")]
    [InlineData("steps: [attach\n", "2:1 script-unreadable")]
    [InlineData("steps: [*a]", "1:9 script-unreadable")]
    [InlineData("volts: 5\nsteps: [attach]", "1:1 script-member-unknown")]
    [InlineData("port: C1\nport: C2\nsteps: [attach]", "2:1 script-member-unknown")]
    [InlineData("port: [C1]\nsteps: [attach]", "1:7 script-value-wrong")]
    [InlineData("in_use: C1\nsteps: [attach]", "1:9 script-value-wrong")]
    [InlineData("edition: R9.9\nsteps: [attach]", "1:10 script-value-wrong")]
    [InlineData("revision: 4\nsteps: [attach]", "1:11 script-value-wrong")]
    [InlineData("started: yesterday\nsteps: [attach]", "1:10 script-value-wrong")]
    [InlineData("started: 2026-03-02T09:14:07\nsteps: [attach]", "1:10 script-value-wrong")]
    [InlineData("cable: 4A\nsteps: [attach]", "1:8 script-value-wrong")]
    [InlineData("cable: 5A none\nsteps: [attach]", "1:8 script-value-wrong")]
    [InlineData("jitter_us: 10001\nsteps: [attach]", "1:12 script-value-wrong")]
    [InlineData("seed: -1\nsteps: [attach]", "1:7 script-value-wrong")]
    [InlineData("source: {a b: [5V 3A]}\nsteps: [attach]", "1:10 script-value-wrong")]
    [InlineData("source: {a: 5V 3A}\nsteps: [attach]", "1:10 script-value-wrong")]
    [InlineData("source: []\nsteps: [attach]", "1:9 script-value-wrong")]
    [InlineData("source: [5V 3A, 5V 3A, 5V 3A, 5V 3A, 5V 3A, 5V 3A, 5V 3A, 5V 3A]\nsteps: [attach]", "1:9 script-value-wrong")]
    [InlineData("source: [28V 5A]\nsteps: [attach]", "1:9 script-value-wrong")]
    [InlineData("steps: attach", "1:8 script-value-wrong")]
    [InlineData("steps: [pause -99999999999999999999s]", "1:9 script-value-wrong")]
    [InlineData("steps: []", "1:8 script-value-wrong")]
    [InlineData("steps: [attach, fly]", "1:17 script-step-unknown")]
    [InlineData("steps: [[attach]]", "1:9 script-step-unknown")]
    [InlineData("steps: [{again 3: [attach]}]", "1:9 script-step-unknown")]
    [InlineData("steps: [{repeat 0: [attach]}]", "1:9 script-value-wrong")]
    [InlineData("steps: [{repeat x: [attach]}]", "1:9 script-value-wrong")]
    [InlineData("steps: [{repeat 3 hot: [attach]}]", "1:9 script-value-wrong")]
    [InlineData("steps: [{repeat 2: [{repeat 2: [{repeat 2: [{repeat 2: [{repeat 2: [attach]}]}]}]}]}]", "1:57 script-value-wrong")]
    public void Script_FaultHasItsPlace(string script, string fault) => Synthesised.Faults(script).Should().Equal(fault);

    [Theory]
    [InlineData("advertise other", "script-value-wrong")]
    [InlineData("request", "script-value-wrong")]
    [InlineData("request 1", "script-value-wrong")]
    [InlineData("request 16 at 3A", "script-value-wrong")]
    [InlineData("ready after soon", "script-value-wrong")]
    [InlineData("ready now", "script-value-wrong")]
    [InlineData("accept twice", "script-value-wrong")]
    [InlineData("enter-epr", "script-value-wrong")]
    [InlineData("enter-epr at 140.5W", "script-value-wrong")]
    [InlineData("enter-epr at 256W", "script-value-wrong")]
    [InlineData("measure", "script-value-wrong")]
    [InlineData("measure 1001V", "script-value-wrong")]
    [InlineData("measure 5V every 5ms", "script-value-wrong")]
    [InlineData("measure 5V every 0s for 1s", "script-value-wrong")]
    [InlineData("measure 5V every 2s for 1s", "script-value-wrong")]
    [InlineData("pause 9999999h", "script-value-wrong")]
    [InlineData("pause 1.5us", "script-value-wrong")]
    [InlineData("accept with love", "script-value-wrong")]
    [InlineData("send Ping", "script-value-wrong")]
    [InlineData("send source GoodCRC", "script-value-wrong")]
    [InlineData("send source Ping 0x00000000", "script-value-wrong")]
    [InlineData("send source Alert", "script-value-wrong")]
    [InlineData("send source PPS_Status", "script-value-wrong")]
    [InlineData("raw sink 821", "script-value-wrong")]
    [InlineData("raw sink 82", "script-value-wrong")]
    [InlineData("raw 8210", "script-value-wrong")]
    [InlineData("discover-cable 9A", "script-value-wrong")]
    [InlineData("request 1 at 3A", "script-step-impossible")]
    [InlineData("get-sink-cap every 1ms for 1s", "script-step-impossible")]
    public void Step_FaultHasItsPlace(string step, string code) =>
        Synthesised.Faults(Synthesised.Script("pause 1s", step)).Should().Equal($"7:5 {code}");

    // The list: 1 to 3 fixed, 4 battery, 5 variable, 6 SPR AVS, 7 PPS, 8 and 9 EPR.
    [Theory]
    [InlineData("request 0 at 3A", "there is no object 0 among the 7 advertised")]
    [InlineData("request 8 at 5A", "enter EPR mode first")]
    [InlineData("request 1 at 5V 3A", "object 1 is fixed; its request has a current and nothing else")]
    [InlineData("request 4 at 3A", "object 4 is battery; its request has a power and nothing else")]
    [InlineData("request 7 at 3A", "object 7 is PPS; its request has a voltage and a current")]
    [InlineData("request 7 at 9.01V 3A", "Output Voltage is coded in steps of 20")]
    [InlineData("request 6 at 12.25V 3A", "Output Voltage is coded in steps of 100")]
    [InlineData("request 7 at 9V 3.01A", "Operating Current is coded in steps of 50")]
    public void RequestThatDoesNotSuitTheList_IsExplained(string step, string reason)
    {
        var fault = ScriptReader.Read(Synthesised.Script("advertise", step)).Faults.Should().ContainSingle().Subject;

        (fault.Line, fault.Column).Should().Be((7, 5));
        fault.Detail.Should().Contain(reason);
    }

    [Fact]
    public void SecondRoundThatCannotBeTaken_IsFoundBeforeAnythingIsWritten() =>
        Synthesised.Faults(Synthesised.Script("advertise", "repeat 9: [contract 1 at 3A, hard-reset]"))
            .Should().Equal("7:16 script-step-impossible");

    [Fact]
    public void SeveralFaults_AreAllReportedInTheirOrder() =>
        Synthesised.Faults("steps: [fly, attach, swim]\nsource: [5V 3A, tea]\nport: []")
            .Should().Equal("1:9 script-step-unknown", "1:22 script-step-unknown", "2:17 script-value-wrong", "3:7 script-value-wrong");

    [Fact]
    public void ScriptWithFaults_IsNotWritten()
    {
        Action write = () => _ = Synthesizer.Write(ScriptReader.Read("steps: [fly]")).Count();

        write.Should().Throw<ArgumentException>();
    }

    [Theory]
    [InlineData("repeat 1000000000: [{repeat 1000000000: [{repeat 1000000000: [{repeat 1000000000: [attach]}]}]}]")]
    [InlineData("repeat 1000000000: [pause 0s]")]
    [InlineData("measure 5V every 1us for 100h")]
    [InlineData("repeat 9: [pause 1000h]")]
    public void ScriptWithoutEnd_IsRefusedAtOnce(string step) =>
        Synthesised.Faults(Synthesised.Script(step)).Should().ContainSingle().Which.Should().EndWith("script-too-long");

    [Fact]
    public void FaultsOfAHostileScript_StayShort()
    {
        string word = new('x', 900);
        var faults = ScriptReader.Read($"{word}: 1\nsteps: [{string.Join(", ", Enumerable.Repeat(word, 50))}]").Faults;

        faults.Should().HaveCount(51).And.OnlyContain(fault => fault.Detail.Length <= 603);
    }

    [Fact]
    public void TextBeyondTheLimit_IsRefused() =>
        ScriptReader.Read(new string(' ', ScriptReader.MaxCharacters + 1)).Faults.Single().Code.Should().Be("script-unreadable");

    [Fact]
    public void ArbitraryText_NeverThrows()
    {
        string[] words =
        [
            "attach", "advertise", "request", "at", "1", "0", "3A", "9V", "5-21V", "PPS", "with", "bad-crc", "every", "5ms", "for", "repeat", ":",
            "[", "]", "{", "}", ",", "\n", "  - ", "steps:", "source:", "cable:", "raw", "sink", "SOP'", "82", "0x", "-", "'", "\"", "#", "\u00e9", "1e9s",
        ];
        Gen.Int[0, words.Length - 1].Array[0, 40].Select(parts => string.Join(' ', parts.Select(part => words[part]))).Sample(
            text =>
            {
                _ = ScriptReader.Read(text).Faults.Length;
                _ = ScriptReader.Read("source: [5V 3A]\nsteps:\n  - " + text.Replace('\n', ' ')).Faults.Length;
            },
            iter: 3000);
    }

    [Theory]
    [InlineData("sourse: [5V 3A]\nsteps: [attach]", "source")]
    [InlineData("accuracy: {vbus_m: 5}\nsource: [5V 3A]\nsteps: [attach]", "vbus_mv")]
    [InlineData("source: [5V 3A]\nsteps: [atach]", "attach")]
    public void UnknownMember_NamesWhatIsMeant(string script, string meant) =>
        ScriptReader.Read(script).Faults.Should().ContainSingle().Which.Detail.Should().Contain($"Did you mean \"{meant}\"?");
}
