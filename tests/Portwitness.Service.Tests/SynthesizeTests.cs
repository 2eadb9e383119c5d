using System.Text;
using Grpc.Core;
using Portwitness.Contracts.V1;

namespace Portwitness.Service.Tests;

public sealed class SynthesizeTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task Script_IsAnsweredWithItsCapture()
    {
        List<SynthesizeResponse> answers = await AnswersAsync("source: [5V 3A]\nsteps: [advertise]");

        // Source_Capabilities of 0x0001912C and its GoodCRC (R3.2v1.1, Table 6.1).
        string capture = string.Concat(answers.Select(answer => answer.Data.ToStringUtf8()));
        capture.Split('\n').Should().HaveCount(4).And.Contain(line => line.Contains("\"hex\":\"A1112C910100\""));
    }

    [Fact]
    public async Task LongCapture_ComesInPieces()
    {
        List<SynthesizeResponse> answers = await AnswersAsync("steps: [measure 5V every 5ms for 1min]");

        answers.Should().HaveCountGreaterThan(5).And.OnlyContain(answer => answer.Data.Length < 80 * 1024);
        answers.Sum(answer => Encoding.UTF8.GetString(answer.Data.Span).Count(c => c == '\n')).Should().Be(12_001);
    }

    [Fact]
    public async Task ScriptWithFaults_IsAnsweredWithTheirPlaces()
    {
        SynthesizeResponse answer = (await AnswersAsync("steps:\n  - fly\n  - advertise")).Should().ContainSingle().Subject;

        answer.Faults.Faults.Select(fault => (fault.File, fault.Line, fault.Column, fault.Code)).Should().Equal(
            ("c1.synthesis.yaml", 2L, 5L, "script-step-unknown"), ("c1.synthesis.yaml", 3L, 5L, "script-value-wrong"));
    }

    [Fact]
    public async Task ScriptLongerThanOneMebibyte_TextIsNamed() =>
        (await RefusedCall.FieldsOfAsync(() => AnswersAsync(new string('#', (1 << 20) + 1)))).Should().Equal("text");

    [Fact]
    public async Task ClientThatLeaves_EndsTheWriting()
    {
        using CancellationTokenSource leaving = new();
        using AsyncServerStreamingCall<SynthesizeResponse> call = service.Client.Synthesize(
            new SynthesizeRequest { Text = "steps: [measure 5V every 1ms for 10h]" }, cancellationToken: leaving.Token);
        (await call.ResponseStream.MoveNext(default)).Should().BeTrue();

        await leaving.CancelAsync();
        Func<Task> rest = async () =>
        {
            while (await call.ResponseStream.MoveNext(default))
            {
            }
        };

        (await rest.Should().ThrowAsync<RpcException>()).Which.StatusCode.Should().Be(StatusCode.Cancelled);
    }

    private async Task<List<SynthesizeResponse>> AnswersAsync(string text)
    {
        using AsyncServerStreamingCall<SynthesizeResponse> call = service.Client.Synthesize(
            new SynthesizeRequest { File = "c1.synthesis.yaml", Text = text });
        List<SynthesizeResponse> answers = [];
        while (await call.ResponseStream.MoveNext(default))
        {
            answers.Add(call.ResponseStream.Current);
        }

        return answers;
    }
}
