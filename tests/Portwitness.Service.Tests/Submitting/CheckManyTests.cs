using Grpc.Core;
using Portwitness.Contracts.V1;

namespace Portwitness.Service.Tests.Submitting;

/// <summary>Many products over one call.</summary>
public sealed class CheckManyTests
{
    [Fact]
    public async Task EachItem_IsAnsweredOnce_AndAFaultyOneStopsNoOther()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        string[] folders = ["clean-th65", "broken-tp20", "weak-tp10"];
        using AsyncDuplexStreamingCall<CheckManyRequest, CheckManyResponse> call = service.Client.CheckMany();
        Dictionary<string, CheckManyResponse> answers = [];
        Task reading = Task.Run(async () =>
        {
            while (await call.ResponseStream.MoveNext(default))
            {
                answers.Add(call.ResponseStream.Current.Id, call.ResponseStream.Current);
            }
        });

        for (int index = 0; index < 30; index++)
        {
            await call.RequestStream.WriteAsync(new CheckManyRequest { Id = $"{index}", Product = SubmittingService.Demo(folders[index % 3]) });
        }

        await call.RequestStream.WriteAsync(new CheckManyRequest { Id = "none" });
        await call.RequestStream.WriteAsync(new CheckManyRequest { Id = "short", Product = SubmittingService.Demo("clean-th65").With(files: 1) });
        await call.RequestStream.CompleteAsync();
        await reading;

        answers.Should().HaveCount(32);
        for (int index = 0; index < 30; index++)
        {
            answers[$"{index}"].Report.Verdict.Should().Be(index % 3 == 0 ? Verdict.Holds : Verdict.Fails);
        }

        answers["none"].Error.Message.Should().Contain("product.options: missing");
        answers["short"].Error.Code.Should().Be((int)StatusCode.InvalidArgument);
        answers["short"].Error.Message.Should().Contain(".capture.jsonl");
    }

    [Fact]
    public async Task ClientThatTakesNoAnswers_IsAskedForNoMoreProducts()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        using AsyncDuplexStreamingCall<CheckManyRequest, CheckManyResponse> call = service.Client.CheckMany();
        CheckManyRequest large = new() { Id = "a", Product = SubmittingService.Demo("shared-tb65") };
        large.Product.Options.Plots = true;

        int written = 0;
        Task writing = Task.Run(async () =>
        {
            for (; written < 2000; written++)
            {
                await call.RequestStream.WriteAsync(large);
            }
        });

        // Nothing is read: answers and requests fill the windows of HTTP/2, and then nothing moves any more.
        int before;
        do
        {
            before = written;
            await Task.WhenAny(writing, Task.Delay(2000));
        }
        while (written > before);

        writing.IsCompleted.Should().BeFalse();
        written.Should().BeLessThan(1000);
    }

    [Fact]
    public async Task ClientThatGoesAway_EndsTheWork()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        using (AsyncDuplexStreamingCall<CheckManyRequest, CheckManyResponse> call = service.Client.CheckMany())
        {
            for (int index = 0; index < 5; index++)
            {
                await call.RequestStream.WriteAsync(new CheckManyRequest { Id = $"{index}", Product = SubmittingService.Demo("clean-th65") });
            }
        }

        (await service.Client.CheckProductAsync(SubmittingService.Demo("clean-th65"))).Verdict.Should().Be(Verdict.Holds);
    }
}
