using Grpc.Core;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Service.Hosting;
using Portwitness.Service.Validation;
using Portwitness.Service.Working;

namespace Portwitness.Service.Tests.Submitting;

/// <summary>From a submission to its report.</summary>
public sealed class SubmitTests
{
    [Theory]
    [InlineData("clean-th65", Verdict.Holds)]
    [InlineData("broken-tp20", Verdict.Fails)]
    [InlineData("weak-tp10", Verdict.Fails)]
    public async Task SubmittedProduct_GetsTheReportOfCheck(string folder, Verdict verdict)
    {
        await using SubmittingService service = await SubmittingService.StartAsync();

        Submission queued = await service.Client.SubmitAsync(SubmittingService.Demo(folder));
        Submission done = await service.WaitForAsync(queued.Key);

        ProductReport report = await service.Client.GetReportAsync(new GetReportRequest { Id = done.ReportId });
        ProductReport checkedAtOnce = await service.Client.CheckDemoAsync(folder);
        report.Verdict.Should().Be(verdict);
        report.Findings.Should().Equal(checkedAtOnce.Findings);
        report.Inputs.Should().Equal(checkedAtOnce.Inputs);
        (await service.Store.ListAsync(new ReportQuery(), default)).Should().ContainSingle("the same input is one entry, however it came");
    }

    [Fact]
    public async Task SameProduct_IsOneSubmission()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        SubmitRequest request = SubmittingService.Demo("clean-th65");
        SubmitRequest renamed = request.Clone();
        renamed.Options.Product.File = "elsewhere/product.yaml";
        renamed.Files.Clear();
        renamed.Files.AddRange(request.Files.Reverse());

        string[] keys = [.. (await Task.WhenAll(Enumerable.Range(0, 20).Select(async _ => await service.Client.SubmitAsync(request)))).Select(static one => one.Key)];
        Submission again = await service.Client.SubmitAsync(renamed);
        await service.WaitForAsync(again.Key);
        Submission done = await service.Client.SubmitAsync(request);

        keys.Append(again.Key).Should().OnlyContain(key => key == again.Key);
        done.State.Should().Be(SubmissionState.Done);
        (await service.Store.ListAsync(new ReportQuery(), default)).Should().ContainSingle();
        (await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65", "R3.0"))).Key.Should().NotBe(again.Key, "the edition counts");
    }

    [Fact]
    public async Task LabelInAFile_IsOneOfTheFiles()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();

        Submission wanting = await service.Client.SubmitAsync(new SubmitRequest
        {
            Options = new CheckOptions { Product = new ProductFile { File = "product.yaml", Text = "label: \"@label.txt\"\n" } },
        });

        (wanting.State, string.Join(',', wanting.WantedFiles)).Should().Be((SubmissionState.Incomplete, "label.txt"));
    }

    [Fact]
    public async Task WhatIsMissing_IsNamed_AndNothingIsKept()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        SubmitRequest request = SubmittingService.Demo("clean-th65");
        SubmittedFile taken = request.Files.First(static file => file.File == "c1.capture.jsonl");
        request.Files.Remove(taken);

        Submission wanting = await service.Client.SubmitAsync(request);
        request.Files.Add(new SubmittedFile { File = taken.File, Sha256 = new string('a', 64) });
        Submission unsent = await service.Client.SubmitAsync(request);
        RpcException refused = await service.RefusalOfAsync(async client => await client.CheckProductAsync(SubmittingService.Demo("clean-th65").With(files: 0)));

        (wanting.State, string.Join(',', wanting.WantedFiles), wanting.WantedContent.Count).Should().Be((SubmissionState.Incomplete, taken.File, 0));
        (unsent.State, unsent.WantedFiles.Count, string.Join(',', unsent.WantedContent)).Should().Be((SubmissionState.Incomplete, 0, new string('a', 64)));
        refused.Status.Detail.Should().Contain(taken.File);
        (await service.Client.ListSubmissionsAsync(new ListSubmissionsRequest())).Submissions.Should().BeEmpty();
    }

    [Fact]
    public async Task FileThatCannotBeGiven_IsInTheReport()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        SubmitRequest request = SubmittingService.Demo("clean-th65");
        request.Files[0] = new SubmittedFile { File = request.Files[0].File, Missing = new FileMissing { Reason = "the bench lost it" } };

        ProductReport report = await service.Client.CheckProductAsync(request);

        report.Faults.Should().Contain(fault => fault.Detail.Contains("the bench lost it"));
    }

    [Fact]
    public async Task WrongRequests_NameEachField()
    {
        await using SubmittingService service = await SubmittingService.StartAsync();
        SubmitRequest request = SubmittingService.Demo("clean-th65");
        request.Files.Add([
            new SubmittedFile { File = request.Files[0].File, Sha256 = "../../etc/passwd" }, new SubmittedFile { File = new string('x', 5000), Data = Google.Protobuf.ByteString.Empty },
            new SubmittedFile { File = "empty" }, new SubmittedFile { File = "big", Data = Google.Protobuf.ByteString.CopyFrom(new byte[(1 << 20) + 1]) },
        ]);
        int own = request.Files.Count - 4;

        (await RefusedCall.FieldsOfAsync(async () => await service.Client.SubmitAsync(request))).Should().BeEquivalentTo(
            $"files[{own}].file", $"files[{own}].sha256", $"files[{own + 1}].file", $"files[{own + 2}]", $"files[{own + 3}].data");
        (await RefusedCall.FieldsOfAsync(async () => await service.Client.SubmitAsync(new SubmitRequest()))).Should().Equal("options");
        (await RefusedCall.FieldsOfAsync(async () => await service.Client.GetSubmissionAsync(new GetSubmissionRequest { Key = "../x" }))).Should().Equal("key");
        (await RefusedCall.FieldsOfAsync(async () => await service.Client.ListSubmissionsAsync(
            new ListSubmissionsRequest { State = SubmissionState.Incomplete, PageSize = -1, PageToken = "x" }))).Should().BeEquivalentTo("state", "page_size", "page_token");
        (await service.RefusalOfAsync(async client => await client.GetSubmissionAsync(new GetSubmissionRequest { Key = new string('0', 64) })))
            .StatusCode.Should().Be(StatusCode.NotFound);
    }

    [Fact]
    public async Task ServiceWithoutAStore_SaysSo()
    {
        Witness.WitnessClient without = new(ServiceHost.Embed(new ServiceLimits()));

        (await Assert.ThrowsAsync<RpcException>(async () => await without.SubmitAsync(SubmittingService.Demo("clean-th65")))).Status.Detail.Should().Contain("--store");
        (await without.CheckProductAsync(SubmittingService.Demo("clean-th65"))).Verdict.Should().Be(Verdict.Holds, "that needs none");
    }

    [Fact]
    public async Task Submissions_AreListedByState()
    {
        await using SubmittingService service = await SubmittingService.StartAsync(new WorkSettings { AtOnce = 0 });
        string[] keys = [.. await Task.WhenAll(new[] { "", "R3.0", "R3.1" }.Select(async edition => (await service.Client.SubmitAsync(SubmittingService.Demo("clean-th65", edition))).Key))];

        ListSubmissionsResponse first = await service.Client.ListSubmissionsAsync(new ListSubmissionsRequest { PageSize = 2 });
        ListSubmissionsResponse rest = await service.Client.ListSubmissionsAsync(new ListSubmissionsRequest { PageSize = 2, PageToken = first.NextPageToken });

        first.Submissions.Concat(rest.Submissions).Select(static one => one.Key).Should().BeEquivalentTo(keys);
        (await service.Client.ListSubmissionsAsync(new ListSubmissionsRequest { State = SubmissionState.Done })).Submissions.Should().BeEmpty();
    }
}
