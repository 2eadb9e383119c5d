using System.Collections.Immutable;
using System.Text;
using Grpc.Core;
using Microsoft.AspNetCore.Authorization;
using Microsoft.Extensions.Logging;
using Portwitness.Analysis;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;
using Portwitness.Captures.Formats;
using Portwitness.History;
using Portwitness.Labels;
using Portwitness.Negotiation;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Product;
using Portwitness.Product.Catalogue;
using Portwitness.Queue;
using Portwitness.Service.Access;
using Portwitness.Service.Calls;
using Portwitness.Service.Submitting;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Translation;
using Portwitness.Service.Validation;
using Portwitness.Synthesis;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service;

/// <summary>The gRPC service: translates a request, calls the analysis, translates the answer.</summary>
/// <param name="limits">What is accepted.</param>
/// <param name="logger">Where log messages go.</param>
/// <param name="metrics">What calls are counted with.</param>
/// <param name="store">Where reports are kept; null when they are not.</param>
/// <param name="queue">Where what is submitted waits; null when nothing can be submitted.</param>
public sealed class WitnessService(
    ServiceLimits limits, ILogger<WitnessService> logger, ServiceMetrics metrics, IReportStore? store = null, IWorkQueue? queue = null)
    : Wire.Witness.WitnessBase
{
    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Submitters)]
    public override Task Decode(
        IAsyncStreamReader<Wire.DecodeRequest> requestStream,
        IServerStreamWriter<Wire.DecodeResponse> responseStream,
        ServerCallContext context) => AnswerAsync(nameof(Decode), context, async watched =>
        {
            DecodeCall call = new(limits, watched, requestStream, responseStream, context.CancellationToken);
            (CaptureAnalysis analysis, long bytes) = await call.RunAsync();
            Log.Decoded(logger, bytes, analysis.MessageCount, analysis.Findings.Length);
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Submitters)]
    public override Task Convert(
        IAsyncStreamReader<Wire.ConvertRequest> requestStream,
        IServerStreamWriter<Wire.ConvertResponse> responseStream,
        ServerCallContext context) => AnswerAsync(nameof(Convert), context, async watched =>
        {
            using ConvertCall call = new(limits, watched, requestStream, responseStream, context.CancellationToken);
            (Wire.Conversion conversion, long bytes) = await call.RunAsync();
            Log.Converted(logger, bytes, conversion.Written.Sum(count => count.Count), conversion.Faults.Count);
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Submitters)]
    public override Task Check(
        IAsyncStreamReader<Wire.CheckRequest> requestStream,
        IServerStreamWriter<Wire.CheckResponse> responseStream,
        ServerCallContext context) => AnswerAsync(nameof(Check), context, async watched =>
        {
            using CheckCall call = new(limits, watched, store, requestStream, responseStream, context.CancellationToken);
            (ProductAnalysis analysis, int files) = await call.RunAsync();
            Log.Checked(logger, files, analysis.Findings.Length, analysis.Verdict.ToString());
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Submitters)]
    public override Task<Wire.ReadLabelResponse> ReadLabel(Wire.ReadLabelRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(ReadLabel), context, watched =>
        {
            LabelSetup setup = LabelSetup.Of(request, limits);
            watched.Received(Encoding.UTF8.GetByteCount(request.Text) + Encoding.UTF8.GetByteCount(request.ProductFile));
            Label label = LabelReader.Read(request.Text, setup.Corrections, out _);
            Log.LabelRead(logger, request.Text.Length, label.Outputs.Length, label.Unread.Length + label.UnlistedUnread);
            Wire.Label read = label.ToContract();
            read.Cautions.AddRange(LabelCautions.Of(label));
            ImmutableArray<Finding> findings = [.. PrintedCheck.Of(label, out long unlisted)];
            watched.Found(findings);
            read.Findings.AddRange(findings.Select(FindingTranslation.ToContract));
            read.UnlistedFindings = unlisted;
            return Task.FromResult(new Wire.ReadLabelResponse { Label = read, ProductFile = setup.ProductFile });
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Readers)]
    public override Task<Wire.ListRulesResponse> ListRules(Wire.ListRulesRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(ListRules), context, watched =>
        {
            InvalidRequest invalid = new();
            Editions editions = invalid.ReadEdition("edition", request.Edition) ?? Editions.All;
            foreach (string unknown in request.Categories.Where(static category => RuleCategoryNames.Parse(category) is null).Take(1))
            {
                invalid.Add("categories", $"not a category; expected {string.Join(", ", RuleCatalogue.Categories.Select(RuleCategoryNames.ToText))}.");
            }

            invalid.ThrowIfAny();
            Wire.ListRulesResponse response = new();
            response.Rules.AddRange(RuleCatalogue.Descriptions
                .Where(rule => request.Name.Length == 0 || rule.Name == request.Name)
                .Where(rule => request.Categories.Count == 0 || request.Categories.Contains(rule.Category.ToText()))
                .Where(rule => request.Severities.Count == 0 || request.Severities.Contains(rule.Severity.ToContract()))
                .Where(rule => (rule.Editions & editions) != 0)
                .Select(rule => rule.ToContract()));
            return request.Name.Length > 0 && !RuleCatalogue.Names.Contains(request.Name)
                ? throw new RpcException(new Status(StatusCode.NotFound, "No rule has that name."))
                : Task.FromResult(response);
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Submitters)]
    public override Task Synthesize(
        Wire.SynthesizeRequest request, IServerStreamWriter<Wire.SynthesizeResponse> responseStream, ServerCallContext context) =>
        AnswerAsync(nameof(Synthesize), context, async watched =>
        {
            InvalidRequest invalid = new();
            invalid.CheckName("file", request.File, limits);
            invalid.CheckText("text", request.Text, limits);
            (CaptureFormat? format, bool packed) = invalid.ReadFormat("to", request.To.Length == 0 ? "jsonl" : request.To, limits);
            invalid.ThrowIfAny();
            watched.Received(Encoding.UTF8.GetByteCount(request.Text));
            SynthesisScript script = ScriptReader.Read(request.Text);
            await responseStream.WriteScriptAsync(script, request.File, format!, packed, context.CancellationToken);
            Log.Synthesized(logger, request.Text.Length, script.Records, script.Faults.Length);
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Submitters)]
    public override Task Negotiate(
        IAsyncStreamReader<Wire.NegotiateRequest> requestStream,
        IServerStreamWriter<Wire.NegotiateResponse> responseStream,
        ServerCallContext context) => AnswerAsync(nameof(Negotiate), context, async watched =>
        {
            NegotiateCall call = new(limits, watched, requestStream, responseStream, context.CancellationToken);
            Wire.NegotiationReport report = await call.RunAsync();
            Log.Negotiated(logger, report.Sinks.Count, report.Offers.Count, report.Faults.Count);
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Readers)]
    public override Task<Wire.ListSinksResponse> ListSinks(Wire.ListSinksRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(ListSinks), context, watched =>
        {
            Wire.ListSinksResponse response = new();
            response.Sinks.AddRange(ShippedSinks.All.Select(SinkTranslation.ToContract));
            response.Policies.AddRange(SinkPolicy.All.Select(SinkTranslation.ToContract));
            return Task.FromResult(response);
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Readers)]
    public override Task<Wire.ListReportsResponse> ListReports(Wire.ListReportsRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(ListReports), context, watched => new HistoryCalls(store, limits).ListAsync(request, context.CancellationToken));

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Readers)]
    public override Task<Wire.ProductReport> GetReport(Wire.GetReportRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(GetReport), context, watched => new HistoryCalls(store, limits).GetAsync(request, context.CancellationToken));

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Submitters)]
    public override Task<Wire.ProductReport> CheckProduct(Wire.SubmitRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(CheckProduct), context, async watched =>
        {
            SubmittedProduct product = SubmittedProduct.Read(request, "", limits);
            if (product.WantedFiles.Count > 0)
            {
                throw InvalidRequest.Because("files", SubmissionCalls.WantedText(product.WantedFiles));
            }

            (Wire.ProductReport report, ProductAnalysis analysis) =
                await SubmittedCheck.RunAsync(request, limits, watched, store, store?.Uploads, context.CancellationToken);
            Log.Checked(logger, request.Files.Count, analysis.Findings.Length, analysis.Verdict.ToString());
            return report;
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Submitters)]
    public override Task CheckMany(
        IAsyncStreamReader<Wire.CheckManyRequest> requestStream,
        IServerStreamWriter<Wire.CheckManyResponse> responseStream,
        ServerCallContext context) => AnswerAsync(nameof(CheckMany), context, async watched =>
        {
            CheckManyCall call = new(limits, watched, store, requestStream, responseStream, context.CancellationToken);
            (int judged, int refused) = await call.RunAsync();
            Log.CheckedMany(logger, judged, refused);
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Submitters)]
    public override Task Upload(
        IAsyncStreamReader<Wire.UploadRequest> requestStream,
        IServerStreamWriter<Wire.UploadResponse> responseStream,
        ServerCallContext context) => AnswerAsync(nameof(Upload), context, async watched =>
        {
            UploadCall call = new(limits, watched, store, Clients.NameOf(context), requestStream, responseStream, context.CancellationToken);
            Log.Uploaded(logger, await call.RunAsync());
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Submitters)]
    [WatchedWhileRecorded]
    public override Task Watch(
        IAsyncStreamReader<Wire.DecodeRequest> requestStream,
        IServerStreamWriter<Wire.WatchResponse> responseStream,
        ServerCallContext context) => AnswerAsync(nameof(Watch), context, async watched =>
        {
            WatchCall call = new(limits, watched, requestStream, responseStream, context.CancellationToken);
            (CaptureAnalysis analysis, long bytes) = await call.RunAsync();
            Log.Decoded(logger, bytes, analysis.MessageCount, analysis.Findings.Length);
            return true;
        });

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Submitters)]
    public override Task<Wire.Submission> Submit(Wire.SubmitRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(Submit), context, watched => new SubmissionCalls(store, queue, limits).SubmitAsync(request, watched, context.CancellationToken));

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Readers)]
    public override Task<Wire.Submission> GetSubmission(Wire.GetSubmissionRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(GetSubmission), context, watched => new SubmissionCalls(store, queue, limits).GetAsync(request, context.CancellationToken));

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Readers)]
    public override Task<Wire.ListSubmissionsResponse> ListSubmissions(Wire.ListSubmissionsRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(ListSubmissions), context, watched => new SubmissionCalls(store, queue, limits).ListAsync(request, context.CancellationToken));

    /// <inheritdoc/>
    [Authorize(Roles = AccessRoles.Admin)]
    public override Task<Wire.Submission> RetrySubmission(Wire.RetrySubmissionRequest request, ServerCallContext context) =>
        AnswerAsync(nameof(RetrySubmission), context, watched => new SubmissionCalls(store, queue, limits).RetryAsync(request, context.CancellationToken));

    private async Task<T> AnswerAsync<T>(string call, ServerCallContext context, Func<WatchedCall, Task<T>> answer)
    {
        using WatchedCall watched = metrics.Begin(call, context.RequestHeaders);
        try
        {
            T answered = await answer(watched);
            watched.Status = StatusCode.OK;
            return answered;
        }
        catch (RpcException exception)
        {
            watched.Refused(exception);
            Log.Refused(logger, LogText.Of(exception.Status.Detail));
            throw;
        }
        catch (Exception exception) when (context.CancellationToken.IsCancellationRequested)
        {
            Log.ClientLeft(logger, call);
            throw new RpcException(new Status(StatusCode.Cancelled, "The client went away.", exception));
        }
        catch (StoreException exception)
        {
            RpcException refusal = StoreCalls.RefusalOf(exception);
            watched.Refused(refusal);
            Log.Refused(logger, LogText.Of(exception.Message));
            throw refusal;
        }
        catch (Exception exception) when (exception is not OperationCanceledException)
        {
            watched.Status = StatusCode.Internal;
            Log.Failed(logger, call, exception.GetType().Name, LogText.Of(exception.Message), LogText.Stack(exception));
            throw new RpcException(new Status(
                StatusCode.Internal, $"A fault in Portwitness itself ({exception.GetType().Name}). The input was not judged."));
        }
    }
}
