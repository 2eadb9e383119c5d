using Grpc.Core;
using Grpc.Core.Interceptors;
using Polly;
using Polly.CircuitBreaker;

namespace Portwitness.Cli.Connection;

/// <summary>Calls with one request and one answer are made again when the service was away, each try within a time of its own.</summary>
internal sealed class ResilientCalls(ResiliencePipeline pipeline, TimeSpan answerTime) : Interceptor
{
    /// <inheritdoc/>
    public override AsyncUnaryCall<TResponse> AsyncUnaryCall<TRequest, TResponse>(
        TRequest request, ClientInterceptorContext<TRequest, TResponse> context, AsyncUnaryCallContinuation<TRequest, TResponse> continuation)
    {
        CancellationToken cancellation = context.Options.CancellationToken;
        Task<TResponse> answer = RunAsync(
            pipeline,
            async token =>
            {
                CallOptions options = context.Options.WithCancellationToken(token).WithDeadline(context.Options.Deadline ?? DateTime.UtcNow + answerTime);
                using AsyncUnaryCall<TResponse> call = continuation(request, new ClientInterceptorContext<TRequest, TResponse>(context.Method, context.Host, options));
                return await call.ResponseAsync;
            },
            cancellation);
        return new AsyncUnaryCall<TResponse>(answer, Task.FromResult(Metadata.Empty), static () => Status.DefaultSuccess, static () => Metadata.Empty, static () => { });
    }

    /// <summary>Runs something in a pipeline. A service that nobody asks for a while counts as away.</summary>
    public static async Task<T> RunAsync<T>(ResiliencePipeline pipeline, Func<CancellationToken, Task<T>> run, CancellationToken cancellation)
    {
        try
        {
            return await pipeline.ExecuteAsync(async token => await run(token), cancellation);
        }
        catch (BrokenCircuitException exception)
        {
            throw exception.InnerException as RpcException
                ?? new RpcException(new Status(StatusCode.Unavailable, "The service failed many times in a row, and is not asked for a while.", exception));
        }
    }
}
